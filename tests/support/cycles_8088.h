#pragma once

#include <cstdint>

#include "support/tiny_8086.h"

namespace rtcmend::test {

/// No fewer clocks than an 8088 takes for the instruction at CS:IP, with the registers as they are
/// before it: the execution times of Intel's table (iAPX 86,88 User's Manual, table 2-21, from
/// memory), the dearer one where it has two, plus four clocks for every byte of the instruction, as
/// if nothing were ever fetched ahead, and four for every word in memory. Of INT the instruction
/// alone. What the table here does not know counts 200.
std::uint32_t most_cycles_8088(const Tiny8086& cpu);

}  // namespace rtcmend::test
