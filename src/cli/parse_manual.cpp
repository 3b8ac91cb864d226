#include "parse_common.hpp"

#include <algorithm>
#include <sstream>
#include <utility>

namespace budclock::cli {
namespace {

struct Entry {
  const char* name;
  const char* text;
};

constexpr Entry k_environment[] = {
    {"BUDCLOCK_SITES", "The sites file, where --sites names none."},
    {"BUDCLOCK_LOG", "The scouting log, where --log names none."},
    {"BUDCLOCK_ACTIONS", "The action log, where --actions names none."},
    {"NO_COLOR", "When set and not empty, no colour is used; without a terminal none is used anyway."},
};

constexpr Entry k_files[] = {
    {"budclock-sites.json, budclock-sites.csv",
     "In the working folder: the sites, where neither --sites nor BUDCLOCK_SITES names another file."},
    {"scouting-log.csv", "Beside the sites file: what was seen. Rows are added under a lock, and none is taken out."},
    {"action-log.csv", "Beside the sites file: what was done."},
    {"manifest.txt", "Written last by nightly: checksum, size and name of each file of its folder."},
};

constexpr const char* k_cautions[] = {
    "Wrong timing wastes a treatment or does harm. The label is the law. Use a licensed applicator where the law asks "
    "for one, follow local rules, and let your local extension service overrule anything printed here.",
    "Keep insecticides off flowers and away from water. Oil burns in frost, heat and drought. budclock never names a "
    "dose. Until a scout has found what a window names, there is nothing to treat.",
};

/// Text that troff prints as it is.
std::string roff(std::string_view text) {
  std::string escaped;
  bool line_begins = true;
  for (const char c : text) {
    if (line_begins && (c == '.' || c == '\'')) escaped += "\\&";
    line_begins = c == '\n';
    switch (c) {
      case '\\':
        escaped += "\\e";
        break;
      case '-':
        escaped += "\\-";
        break;
      case '\'':
        escaped += "\\(aq";
        break;
      case '`':
        escaped += "\\(ga";
        break;
      case '^':
        escaped += "\\(ha";
        break;
      case '~':
        escaped += "\\(ti";
        break;
      default:
        escaped += c;
    }
  }
  return escaped;
}

std::string item(const std::string& head, std::string_view text) {
  return fmt::format(".TP\n{}\n{}\n", head, roff(text));
}

std::string as_typed(std::string_view text) { return fmt::format(".PP\n.EX\n{}\n.EE\n", roff(text)); }

template <std::size_t N>
std::string items(const Entry (&entries)[N]) {
  std::string page;
  for (const Entry& entry : entries) page += item("\\fB" + roff(entry.name) + "\\fR", entry.text);
  return page;
}

/// "--format csv|text", its names in bold and what it takes in italics.
std::string head_of(const CLI::Option& option) {
  std::vector<std::string> names;
  for (const std::string& name : option.get_snames()) names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) names.push_back("--" + name);
  if (names.empty()) names.push_back(option.get_name(true));
  const bool value = option.get_items_expected_max() > 0;
  const bool several = option.get_items_expected_max() > 1;
  return fmt::format("\\fB{}\\fR{}{}", roff(fmt::format("{}", fmt::join(names, ", "))),
                     value ? " \\fI" + roff(option.get_type_name()) + "\\fR" : "", several ? " ..." : "");
}

std::string section_of(const CLI::App& command) {
  std::string page = fmt::format(".SS {}\n{}.\n", roff(command.get_name()), roff(command.get_description()));
  for (const CLI::Option* option : command.get_options()) {
    page += item(head_of(*option), option->get_description() + ".");
  }
  if (!command.get_footer().empty()) page += as_typed(command.get_footer());
  return page;
}

/// The general footer's examples, and its list of exit statuses.
std::pair<std::string, std::string> parts_of(const std::string& footer) {
  const std::string_view examples = "Examples:\n";
  const std::string_view statuses = "\n\nExit status: ";
  const std::size_t from = footer.find(examples) + examples.size();
  const std::size_t end = footer.find(statuses);
  return {footer.substr(from, end - from), footer.substr(end + statuses.size())};
}

/// "0 answered; 1 ..." as items.
std::string status_items(std::string statuses) {
  std::replace(statuses.begin(), statuses.end(), '\n', ' ');
  std::istringstream words{statuses};
  std::string page;
  for (std::string each; std::getline(words >> std::ws, each, ';');) {
    const std::size_t blank = each.find(' ');
    page += item("\\fB" + each.substr(0, blank) + "\\fR", each.substr(blank + 1));
  }
  return page;
}

}  // namespace

std::string manual_page(const CLI::App& app) {
  const auto [examples, statuses] = parts_of(app.get_footer());
  std::string page = ".TH BUDCLOCK 1 " BUDCLOCK_RELEASED " \"budclock " BUDCLOCK_VERSION
                     "\" \"User Commands\"\n"
                     ".SH NAME\nbudclock \\- forecast when landscape pests can be reached\n"
                     ".SH SYNOPSIS\n";
  for (const CLI::App* command : app.get_subcommands({})) {
    page +=
        fmt::format("{}.B budclock {}\n[\\fIoption\\fR ...]{}\n", page.ends_with("SYNOPSIS\n") ? "" : ".br\n",
                    roff(command->get_name()), [&] {
                      const auto options = command->get_options();
                      const auto place = std::find_if(options.begin(), options.end(),
                                                      [](const auto* each) { return each->get_positional(); });
                      return place == options.end() ? std::string{} : " [\\fI" + (*place)->get_name(true) + "\\fR ...]";
                    }());
  }
  page += ".SH DESCRIPTION\n" + roff(app.get_description()) + "\n.SH OPTIONS\n";
  for (const CLI::Option* option : app.get_options()) page += item(head_of(*option), option->get_description() + ".");
  page += ".SH COMMANDS\n";
  for (const CLI::App* command : app.get_subcommands({})) page += section_of(*command);
  page += ".SH EXIT STATUS\n" + status_items(statuses);
  page += ".SH ENVIRONMENT\n" + items(k_environment) + ".SH FILES\n" + items(k_files);
  page += ".SH EXAMPLES" + as_typed(examples).replace(0, 3, "") + ".SH CAUTIONS\n";
  for (const char* caution : k_cautions) page += (page.ends_with("CAUTIONS\n") ? "" : ".PP\n") + roff(caution) + "\n";
  return page;
}

}  // namespace budclock::cli
