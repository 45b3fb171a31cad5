#include "document/read_catalog.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "read_support.hpp"

namespace cotter::document {
namespace {

/// A folder of its own that is gone after the test.
class CatalogFolders : public testing::Test {
 protected:
  CatalogFolders() {
    root_ = std::filesystem::path(testing::TempDir()) / testing::UnitTest::GetInstance()->current_test_info()->name();
    std::filesystem::remove_all(root_);
  }
  ~CatalogFolders() override { std::filesystem::remove_all(root_); }

  void write(const std::string& path, const std::string& text) const {
    std::filesystem::create_directories((root_ / path).parent_path());
    std::ofstream(root_ / path, std::ios::binary) << text;
  }
  std::string path(const std::string& name) const { return (root_ / name).string(); }
  void write_small_catalog(const std::string& folder) const {
    for (const auto& [name, text] : small_catalog_texts()) write(folder + "/deep/" + name, text);
  }
  /// Diagnostics with the test's folder taken off.
  std::vector<std::string> said(const std::vector<std::string>& folders) const {
    const auto read = read_catalog(folders);
    std::vector<std::string> lines = read ? std::vector<std::string>{} : lines_of(read.error());
    for (std::string& line : lines)
      for (std::size_t at = line.find(root_.string()); at != std::string::npos; at = line.find(root_.string()))
        line.erase(at, root_.string().size() + 1);
    return lines;
  }

 private:
  std::filesystem::path root_;
};

const std::string k_more_parts = R"(cotter: parts 1
parts:
  - {id: saddle_wide, label: wide saddle, family: saddle, interfaces: {rails: {kind: rail, diameter: 7 mm}}}
)";

TEST_F(CatalogFolders, LaterFolderAdds) {
  write_small_catalog("base");
  write("shop/parts.yaml", k_more_parts);
  write("shop/notes.txt", "not a catalog file");
  const auto read = read_catalog({path("base"), path("shop")});
  ASSERT_TRUE(read);
  EXPECT_TRUE(read->parts.contains("saddle_plain"));
  EXPECT_TRUE(read->parts.contains("saddle_wide"));
}

TEST_F(CatalogFolders, SameIdTwiceNamesBothFiles) {
  write_small_catalog("base");
  write("shop/parts.yaml", changed(k_more_parts, "saddle_wide", "saddle_plain"));
  EXPECT_EQ(said({path("base"), path("shop")}),
            std::vector<std::string>{"shop/parts.yaml:3:10: parts[0].id: This part is given twice, first at "
                                     "base/deep/parts.yaml:14:9; found \"saddle_plain\"; accepted: a name that is not "
                                     "used yet"});
}

TEST_F(CatalogFolders, FolderThatIsNotThere) {
  write_small_catalog("base");
  EXPECT_EQ(
      said({path("base"), path("none"), path("nowhere")}),
      (std::vector<std::string>{
          "none: The folder of the catalog could not be read; found \"none\"; accepted: a folder with catalog files",
          "nowhere: The folder of the catalog could not be read; found \"nowhere\"; accepted: a folder with catalog "
          "files"}));
}

TEST_F(CatalogFolders, TenMegabytes) {
  write("base/large.yaml", std::string(10'000'000, '#'));
  EXPECT_EQ(
      said({path("base")}),
      std::vector<std::string>{"base/large.yaml: The file has more than 1048576 bytes; accepted: a smaller file"});
}

TEST_F(CatalogFolders, SameTextsSameHash) {
  write_small_catalog("one");
  write_small_catalog("other");
  EXPECT_EQ(read_catalog({path("one")})->hash, read_catalog({path("other")})->hash);
  write("other/more.yaml", k_more_parts);
  EXPECT_NE(read_catalog({path("one")})->hash, read_catalog({path("other")})->hash);
}

TEST(ReadCatalog, FilesInAnyOrderGiveTheSameParts) {
  Texts texts = small_catalog_texts();
  std::sort(texts.begin(), texts.end());
  do {
    const auto read = read_catalog_texts(texts);
    ASSERT_TRUE(read);
    EXPECT_EQ(read->parts.size(), small_catalog().parts.size());
  } while (std::next_permutation(texts.begin(), texts.end()));
}

TEST(ReadCatalog, NoFilesAreAnEmptyCatalog) {
  const auto read = read_catalog_texts({});
  ASSERT_TRUE(read);
  EXPECT_TRUE(read->kinds.empty());
}

TEST(ReadCatalog, NewerVersionKeepsTheOtherFilesQuiet) {
  Texts texts = small_catalog_texts();
  texts[0].second = changed(texts[0].second, "interface_kinds 1", "interface_kinds 7");
  const auto read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  EXPECT_EQ(
      lines_of(read.error()),
      std::vector<std::string>{"kinds.yaml:1:9: cotter: The document is of version 7; this program reads versions "
                               "up to 1. Take a newer program, or write the document anew; found "
                               "\"interface_kinds 7\"; accepted: `interface_kinds 1`"});
}

TEST(ReadCatalog, FaultsOfAllFilesTogether) {
  Texts texts = small_catalog_texts();
  texts[0].second = changed(texts[0].second, "- kind: cup", "- kind: cupp");
  texts[1].second = changed(texts[1].second, "diameter: 7 mm", "diameter: 70 mm");
  texts[2].second = changed(texts[2].second, "point: rear_axle", "point: rear_axel");
  texts[3].second = changed(texts[3].second, "after: [look]", "after: [lock]");
  texts.emplace_back("broken.yaml", "cotter: parts 1\nparts: [\n");
  auto read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  // The broken file may hold what the others name, so only the shape of the others is judged.
  ASSERT_EQ(read.error().list().size(), 2u);
  EXPECT_EQ(read.error().list()[0].code, "unknown_word");
  EXPECT_EQ(read.error().list()[1].file, "broken.yaml");
  texts.pop_back();
  read = read_catalog_texts(texts);
  ASSERT_FALSE(read);
  std::vector<std::string> files;
  for (const Diagnostic& diagnostic : read.error().list()) files.push_back(diagnostic.file);
  EXPECT_EQ(files, (std::vector<std::string>{"kinds.yaml", "parts.yaml", "bicycle.yaml", "operations.yaml"}));
}

}  // namespace
}  // namespace cotter::document
