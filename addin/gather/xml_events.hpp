// What a reader of XML calls, so that those who make sense of a file's parts do not know which one it is.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace slipbark::gather {

struct XmlAttribute {
    std::string name;
    std::string value;
};
using XmlAttributes = std::span<const XmlAttribute>;

/// The value of an attribute; "" where there is none.
inline std::string_view attribute(XmlAttributes all, std::string_view name) {
    for (const XmlAttribute& one : all) {
        if (one.name == name) return one.value;
    }
    return {};
}

class XmlEvents {
  public:
    XmlEvents() = default;
    XmlEvents(const XmlEvents&) = delete;
    XmlEvents& operator=(const XmlEvents&) = delete;
    virtual ~XmlEvents() = default;

    virtual void start(std::string_view element, XmlAttributes attributes) = 0;
    virtual void end(std::string_view element) = 0;
    virtual void text(std::string_view characters) = 0;
};

}  // namespace slipbark::gather
