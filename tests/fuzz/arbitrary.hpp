// Arbitrary values as cells can hold them, and worse, made from a fuzzer's bytes.
#pragma once

#include <fuzzer/FuzzedDataProvider.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <string>

#include "catalogue/catalogue.hpp"

namespace slipbark::fuzz {

using Bytes = FuzzedDataProvider;

/// What the fuzzer reports as a finding.
[[noreturn]] inline void found(const std::string& what) {
    std::fprintf(stderr, "FOUND: %s\n", what.c_str());
    std::abort();
}

inline double number(Bytes& bytes) {
    static constexpr double edges[]{0,
                                    1,
                                    -1,
                                    0.5,
                                    0.95,
                                    0.999999999999,
                                    1e-9,
                                    1e-300,
                                    85,
                                    2.5,
                                    46271,
                                    2958465,
                                    1e7,
                                    1e12,
                                    1e300,
                                    -1e300,
                                    9007199254740993.0,
                                    std::numeric_limits<double>::denorm_min(),
                                    std::numeric_limits<double>::max(),
                                    std::numeric_limits<double>::infinity(),
                                    -std::numeric_limits<double>::infinity(),
                                    std::numeric_limits<double>::quiet_NaN()};
    double made = 0;
    switch (bytes.ConsumeIntegralInRange(0, 5)) {
        case 0:
            made = bytes.PickValueInArray(edges);
            break;
        case 1:
            made = bytes.ConsumeIntegralInRange(-3, 20);
            break;
        case 2:
            made = bytes.ConsumeIntegralInRange(0, 10'000'000);
            break;
        case 3:
            made = bytes.ConsumeIntegralInRange(0, 1000) / 1000.0;
            break;
        case 4:
            made = 46000 + bytes.ConsumeIntegralInRange(0, 70000) / 64.0;
            break;
        default:
            made = bytes.ConsumeFloatingPoint<double>();
    }
    return made + 0.0;  // no cell holds -0
}

inline std::string text(Bytes& bytes) {
    static constexpr const char* words[]{"",
                                         "schedule",
                                         "yield",
                                         "storage",
                                         "cool storage",
                                         "room",
                                         "cool",
                                         "sine",
                                         "triangle",
                                         "average",
                                         "horizontal",
                                         "vertical",
                                         "wilson",
                                         "exact",
                                         "jeffreys",
                                         "agresti",
                                         "0000011",
                                         "1111111",
                                         "d",
                                         "w",
                                         "m",
                                         "3",
                                         "+7",
                                         "1e5",
                                         " SINE ",
                                         "STICKS",
                                         "REWORK.WHY",
                                         "intermediate",
                                         "Nurse limb off",
                                         "Cut"};
    if (bytes.ConsumeBool()) return bytes.PickValueInArray(words);
    std::string made = bytes.ConsumeRandomLengthString(40);
    std::replace(made.begin(), made.end(), '\0', '0');  // no cell holds it
    return made;
}

inline Cell cell(Bytes& bytes) {
    switch (bytes.ConsumeIntegralInRange(0, 7)) {
        case 0:
            return {};
        case 1: {
            // As to_cell does it, an empty text in a block is a blank cell.
            std::string one = text(bytes);
            if (one.empty()) return {};
            return one;
        }
        default:
            return number(bytes);
    }
}

inline Table table(Bytes& bytes) {
    const auto columns = bytes.ConsumeIntegralInRange<std::size_t>(1, 7);
    const auto rows = bytes.ConsumeIntegralInRange<std::size_t>(1, bytes.ConsumeBool() ? 6 : 200);
    Table made;
    made.columns = bytes.ConsumeBool() ? 1 : columns;
    // Half of the tables rise by one from row to row, as dates and years do, and all others would be refused as.
    const bool rises = bytes.ConsumeBool();
    double next = number(bytes);
    for (std::size_t at = 0; at < rows * made.columns; ++at) {
        made.cells.push_back(rises && at % made.columns == 0 ? Cell{next} : cell(bytes));
        if (at % made.columns == 0) next += 1;
        if (bytes.remaining_bytes() == 0) {
            made.cells.resize((made.cells.size() + made.columns - 1) / made.columns * made.columns);
            break;
        }
    }
    if (bytes.ConsumeIntegralInRange(0, 9) == 0)
        made.blank_rows = bytes.ConsumeIntegralInRange<std::size_t>(0, 1048576);
    return made;
}

inline catalogue::Value value(Bytes& bytes, catalogue::Kind kind) {
    using catalogue::Kind;
    // Mostly of the kind that the function wants, so that the fuzzer gets past the door.
    if (bytes.ConsumeIntegralInRange(0, 15) != 0) {
        if (kind == Kind::number || kind == Kind::date) return number(bytes);
        if (kind == Kind::text) return text(bytes);
        if (kind == Kind::block) return table(bytes);
    }
    switch (bytes.ConsumeIntegralInRange(0, 4)) {
        case 0:
            return {};
        case 1:
            return text(bytes);
        case 2:
            return table(bytes);
        default:
            return number(bytes);
    }
}

inline Day null_date(Bytes& bytes) {
    using namespace std::chrono;
    static constexpr Day days[]{Day{1899y / December / 30}, Day{1900y / January / 1}, Day{1904y / January / 1}};
    return days[bytes.ConsumeIntegralInRange(0, 2)];
}

}  // namespace slipbark::fuzz
