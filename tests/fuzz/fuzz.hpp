// One fuzz target: a function that takes any bytes and aborts when a promise is broken. tests/fuzz/replay.cpp runs it
// on the files of a corpus, tests/fuzz/libfuzzer.cpp hands it to libFuzzer.
#pragma once

#include <cstddef>
#include <cstdint>

int fuzz_one(const std::uint8_t* data, std::size_t size);
