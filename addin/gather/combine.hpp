// The desk's tables from all workbooks of a folder: nothing twice, and what one workbook knows of another's counts.
#pragma once

#include <vector>

#include "gather/harvest.hpp"

namespace slipbark::gather {

/// A workbook of the folder.
struct SourceFile {
    std::string path;  ///< from the folder on, with "/"
    double saved = 0;  ///< when it was last changed; the later of two copies counts
    Harvest harvest;
};

struct GatheredBlock {
    std::string client;
    std::string path;
    Kind kind = Kind::plan;
    BlockLine line;
};

struct GatheredCount {
    std::string client;
    std::string path;
    CountLine line;
};

struct Problem {
    std::string path;
    Message reason;
};

struct Tables {
    std::vector<GatheredBlock> blocks;
    std::vector<GatheredCount> counts;
    std::vector<Problem> problems;
};

/// One line for each block of a client and season, from its plan, or from its log where there is no plan; counts of a
/// block and season from its log, or else its plan, or else the records. A log takes season, method and nurseries from
/// the plan of its block. Of two workbooks for the same block and season the one saved last counts; the other is named
/// among the problems.
///
/// The client is the one that the workbook names, or else the folder it lies in, or else the file's own name.
Tables combine(std::vector<SourceFile> files);

/// The client of a workbook at that path which names none.
std::string client_of(const std::string& path);

}  // namespace slipbark::gather
