"""What LibreOffice took the cells of our CSV files for. usage: office_cells.py FOLDER (with *.fods made from them)"""
import sys
import xml.etree.ElementTree as tree

OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def rows(path):
    """Each row as a list of (type, text, formula)."""
    for row in tree.parse(path).iter(f"{TABLE}table-row"):
        cells = []
        for cell in row.findall(f"{TABLE}table-cell"):
            text = "\n".join("".join(p.itertext()) for p in cell.findall(f"{TEXT}p"))
            shown = (cell.get(f"{OFFICE}value-type", ""), text, cell.get(f"{TABLE}formula"))
            cells += [shown] * min(int(cell.get(f"{TABLE}number-columns-repeated", "1")), 100)
        yield cells


def check(path, dates, numbers):
    table = list(rows(path))
    header = [text for _, text, _ in table[0]]
    seen = {"date": 0, "float": 0}
    for cells in table[1:]:
        for name, (kind, text, formula) in zip(header, cells):
            assert formula is None, f"{path}: {name} became the formula {formula}"
            wanted = "date" if name in dates else "float" if name in numbers else None
            if wanted is None or not text:
                continue
            assert kind == wanted, f"{path}: {name} '{text}' became a {kind}"
            seen[wanted] += 1
    assert seen["date"] > 10, f"{path}: {seen}"
    return seen


folder = sys.argv[1]
site_dates = {"today", "from", "until", "likely", "early", "late", "close_likely", "close_early", "close_late", "start"}
for name, dates, numbers in (
    ("site", site_dates, {"target_ddf", "so_far_ddf", "to_go_ddf", "base_f", "share_of_years", "years", "share_by_14_days"}),
    ("comma", site_dates, {"target_ddf", "so_far_ddf", "to_go_ddf", "base_f", "share_of_years", "years", "share_by_14_days"}),
    ("digest", {"today", "from", "until"}, {"days_left"}),
    ("inspection", {"date"}, {"tmin_f", "tmax_f", "line"}),
):
    seen = check(f"{folder}/{name}.fods", dates, numbers)
    assert name == "digest" or seen["float"] > 10, f"{name}: {seen}"
    print(f"  {name}: {seen['date']} dates, {seen['float']} numbers")
log = [text for cells in rows(f"{folder}/log.fods") for _, text, _ in cells]
assert "'=1+1" in log and "'@office" in log, "the log's guarded cells are not shown as text"
for cells in rows(f"{folder}/log.fods"):
    assert all(formula is None for _, _, formula in cells), "a cell of the log became a formula"
table = list(rows(f"{folder}/inspection.fods"))
first = {name: cell[:2] for (_, name, _), cell in zip(table[0], table[1])}
for name, text in (("product", "'=1+1"), ("registration", "5-12"), ("amount", "'@9 oz"), ("area", "3/4 acre")):
    assert first[name] == ("string", text), f"{name} is shown as {first[name]}"
