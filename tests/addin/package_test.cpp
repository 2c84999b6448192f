// The files that ship. Calc starts with most damages of a package, but not with all; see docs/trust.md. What stops it,
// or leaves the user without functions, must not leave this build.

#include <elf.h>
#include <gtest/gtest.h>

#include <cstring>
#include <filesystem>
#include <set>

#include "texts.hpp"

namespace {

using slipbark::tests::content;

const std::filesystem::path package = SLIPBARK_PACKAGE;

TEST(Package, HoldsEveryFileThatItsManifestNames) {
    const std::string manifest = content(package / "META-INF/manifest.xml");
    EXPECT_NE(manifest.find("</manifest:manifest>"), std::string::npos);
    const auto entries = slipbark::tests::matches(manifest, "full-path=\"([^\"]+)\"");
    for (const auto& entry : entries) EXPECT_TRUE(std::filesystem::exists(package / entry[1])) << entry[1];
    EXPECT_GE(entries.size(), 3U);
}

TEST(Package, RegistersItsLibraryWithoutAPrefix) {
    const std::string components =
        slipbark::tests::replaced(content(package / "slipbark.components"), "<!--[^]*?-->", "");
    EXPECT_EQ(components.find("prefix"), std::string::npos) << "this attribute stops the office from starting";
    EXPECT_NE(components.find("uri=\"libslipbark.so\""), std::string::npos);
    EXPECT_NE(components.find("</components>"), std::string::npos);
}

TEST(Package, HoldsAWholeLibraryForItsPlatform) {
    const std::string library = content(package / "libslipbark.so");
    Elf64_Ehdr header;
    ASSERT_GE(library.size(), sizeof header);
    std::memcpy(&header, library.data(), sizeof header);
    EXPECT_EQ(std::memcmp(header.e_ident, ELFMAG, SELFMAG), 0);
    EXPECT_EQ(header.e_ident[EI_CLASS], ELFCLASS64);
    EXPECT_EQ(header.e_machine, EM_X86_64);
    EXPECT_EQ(header.e_type, ET_DYN);
    // The table of sections is the last thing in the file.
    EXPECT_EQ(header.e_shoff + std::size_t{header.e_shentsize} * header.e_shnum, library.size());
    EXPECT_NE(content(package / "description.xml").find("<platform value=\"linux_x86_64\"/>"), std::string::npos);
    EXPECT_NE(content(package / "META-INF/manifest.xml").find("platform=Linux_x86_64"), std::string::npos);
}

// What is only tried, for another platform, must not reach those for whom this one is proven.
TEST(Package, HoldsNothingOfThePortableComponent) {
    const std::string components = content(package / "slipbark.components");
    EXPECT_NE(components.find("environment=\"gcc3\""), std::string::npos);
    EXPECT_EQ(components.find("environment=\"uno\""), std::string::npos);
    EXPECT_EQ(content(package / "META-INF/manifest.xml").find("Windows"), std::string::npos);
    EXPECT_EQ(content(package / "libslipbark.so").find("slipbark_component_getFactory"), std::string::npos);
    for (const auto& file : std::filesystem::recursive_directory_iterator(package)) {
        EXPECT_EQ(file.path().filename().string().find("portable"), std::string::npos) << file.path();
        EXPECT_NE(file.path().extension(), ".dll") << file.path();
    }
}

TEST(Package, HoldsItsTypes) {
    const std::string types = content(package / "slipbark.rdb");
    EXPECT_TRUE(types.starts_with(std::string("UNOIDL\xFF\0", 8)));
    EXPECT_NE(types.find("slipbark"), std::string::npos);
}

TEST(Package, SaysWhoMadeItAndUnderWhichLicenceWithoutALinkToNowhere) {
    // A licence text of the manager's own kind (simple-license) would ask at each installation and stop an unattended
    // one.
    const std::string description = content(package / "description.xml");
    EXPECT_EQ(description.find("href=\"\""), std::string::npos);
    EXPECT_EQ(description.find("simple-license"), std::string::npos);
    EXPECT_NE(content(package / "description-en.txt").find("Mozilla Public License 2.0"), std::string::npos);
    EXPECT_TRUE(content(package / "LICENSE").starts_with("Mozilla Public License Version 2.0"));
}

TEST(Package, HoldsNoMacroAndNoProgramButTheLibrary) {
    const std::set<std::string> harmless{".xml",  ".xcu", ".xcs", ".components", ".txt", ".rdb",
                                         ".html", ".png", ".svg", ".ots",        ""};
    for (const auto& file : std::filesystem::recursive_directory_iterator(package)) {
        if (!file.is_regular_file() || file.path().filename() == "libslipbark.so") continue;
        EXPECT_TRUE(harmless.contains(file.path().extension().string())) << file.path();
    }
    const std::string manifest = content(package / "META-INF/manifest.xml");
    EXPECT_EQ(manifest.find("basic-library"), std::string::npos);
    EXPECT_EQ(manifest.find("framework-script"), std::string::npos);
    EXPECT_EQ(manifest.find("type=Python"), std::string::npos);
}

}  // namespace
