// What the parts of a flat OpenDocument file are written with.
#pragma once

#include <boost/property_tree/ptree_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "composer/cells.hpp"

namespace slipbark::compose {

using Tree = boost::property_tree::ptree;
using Attributes = std::vector<std::pair<std::string, std::string>>;

/// A new last child with its attributes.
Tree& add(Tree& parent, const std::string& name, const Attributes& attributes = {}, const std::string& text = {});

std::string cm(double length);

/// What a format is called in the file; empty for Format::general.
std::string format_name(Format format);

/// A format by its word: general, count, weekday-date ...
std::optional<Format> read_format(std::string_view word);

/// The document of look.xml.
const Tree& look();

/// The number formats of those names, as look.xml has them.
void add_number_formats(Tree& styles);

}  // namespace slipbark::compose
