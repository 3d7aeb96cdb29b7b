// The outside world: what is read, and what never is.
#include "interpreter/world.hpp"

#include <atomic>
#include <filesystem>
#include <fstream>
#include <functional>
#include <thread>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>

using namespace levigate;
namespace fs = std::filesystem;

namespace {

std::string text_or(const FileText& file) {
    if (auto text = std::get_if<std::string>(&file.text)) return *text;
    switch (std::get<Unreadable>(file.text)) {
        case Unreadable::missing: return "<missing>";
        case Unreadable::directory: return "<directory>";
        case Unreadable::denied: return "<denied>";
        case Unreadable::outside: return "<outside>";
        case Unreadable::too_big: return "<too big>";
        case Unreadable::changing: return "<changing>";
        case Unreadable::failed: return "<failed>";
    }
    return {};
}

/// A folder of its own, away afterwards.
struct Folder {
    fs::path path;
    Folder() {
        std::string name = (fs::temp_directory_path() / "levigate-XXXXXX").string();
        path = ::mkdtemp(name.data());
        fs::create_directories(path / "bench/inner");
        write("secret.shade", "secret");
        write("bench/orchard.shade", "orchard");
        write("bench/shelf.shade", "shelf");
        write("bench/inner/deep.shade", "deep");
    }
    ~Folder() { fs::remove_all(path); }
    void write(const std::string& name, std::string_view text) const {
        std::ofstream(path / name, std::ios::binary) << text;
    }
    std::string operator/(const std::string& name) const { return (path / name).string(); }
};

struct Beside {
    const World& world;
    std::string root;
    std::string from = root;
    std::string shown = {};
    std::string operator()(const std::string& relative) {
        return text_or(world.open_beside(root, from, relative, shown));
    }
};

}  // namespace

TEST_CASE("only plain files are read, and none too big", "[world]") {
    Folder folder;
    World world = disk_world();
    CHECK(text_or(world.open(folder / "bench/shelf.shade")) == "shelf");
    CHECK(text_or(world.open(folder / "bench/none.shade")) == "<missing>");
    CHECK(text_or(world.open(folder / "bench/shelf.shade/x")) == "<missing>");
    CHECK(text_or(world.open(folder / "bench")) == "<directory>");
    CHECK(text_or(world.open("/dev/zero")) == "<failed>");
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK(text_or(world.open(folder / "pipe")) == "<failed>");  // and does not wait
    folder.write("empty", "");
    CHECK(text_or(world.open(folder / "empty")).empty());
    folder.write("bytes", std::string_view("a\0b\xFF", 4));
    CHECK(text_or(world.open(folder / "bytes")) == std::string("a\0b\xFF", 4));
    folder.write("big", "");
    fs::resize_file(folder.path / "big", largest_file);
    CHECK(text_or(world.open(folder / "big")).size() == largest_file);
    fs::resize_file(folder.path / "big", largest_file + 1);
    CHECK(text_or(world.open(folder / "big")) == "<too big>");
}

// Several touch the file as fast as they can, so that sooner or later each of the three readings of
// one try is disturbed. What is read nevertheless is whole.
TEST_CASE("a file that is written while it is read is not taken for a whole one", "[world]") {
    Folder folder;
    World world = disk_world();
    const std::string path = folder / "touched", text(12u << 20, 'a');
    folder.write("touched", text);
    std::atomic<bool> enough = false;
    std::vector<std::thread> writers;
    for (int i = 0; i < 4; ++i)
        writers.emplace_back([&, i] {
            for (long n = 0; !enough; ++n) {
                const timespec times[2] = {{n, 0}, {n, i}};
                (void)::utimensat(AT_FDCWD, path.c_str(), times, 0);
            }
        });
    bool seen = false, whole_ones = true;
    for (int i = 0; i < 300 && !seen; ++i) {
        const FileText file = world.open(path);
        const auto* whole = std::get_if<std::string>(&file.text);
        seen = !whole && std::get<Unreadable>(file.text) == Unreadable::changing;
        whole_ones = whole_ones && (!whole || *whole == text);
    }
    enough = true;
    for (std::thread& writer : writers) writer.join();
    CHECK(seen);
    CHECK(whole_ones);
    CHECK(text_or(world.open(path)) == text);
    // What calls itself empty and isn't, as the system's own tables, is no file of shades.
    if (fs::exists("/proc/self/status"))
        CHECK(text_or(world.open("/proc/self/status")) == "<changing>");
}

// What is done to the file in the middle of the first readings; the last of them is left in peace.
TEST_CASE("a file that changes while it is read is read again, or refused", "[world]") {
    Folder folder;
    const std::string path = folder / "grown", first = "material soft base\n";
    const std::string root = folder / "bench/orchard.shade";
    const auto append = [&] { std::ofstream(path, std::ios::app) << "material clay\n"; };
    const auto cut = [&] { fs::resize_file(path, 8); };
    const auto over = [&] {  // as long as before, and so soon that no time need tell
        std::fstream out(path, std::ios::in | std::ios::out);
        out.seekp(9), out << "hard";
    };
    const auto replaced = [&] {  // as an editor does it: what was opened stays as it was
        folder.write("other", "material kaolin\n");
        fs::rename(folder.path / "other", path);
    };
    struct Change {
        const char* name;
        std::function<void()> make;
        std::string then;
        bool only_after = false;  ///< before reading it would be one whole state of the file
    };
    for (const Change& change : {Change{"appended", append, first + "material clay\n"},
                                 Change{"cut", cut, "material"},
                                 Change{"written over", over, "material hard base\n", true}})
        for (const bool before : {true, false})
            for (const int times : {1, 2, 3}) {
                if (before && change.only_after) continue;
                INFO(change.name << (before ? " before" : " after") << " reading, " << times);
                folder.write("grown", first);
                int left = times;
                const auto hook = [&] {
                    if (left-- <= 0) return;
                    if (change.name != std::string("appended")) folder.write("grown", first);
                    change.make();
                };
                const World world = before ? disk_world({hook, {}}) : disk_world({{}, hook});
                const std::string came = text_or(world.open(path));
                // Three times disturbed it is refused; else what stands there in the end is read.
                const std::string whole =
                    change.name == std::string("appended") && times == 2
                        ? change.then + "material clay\n"
                        : change.then;
                CHECK(came == (times == 3 ? "<changing>" : whole));
            }
    folder.write("grown", first);
    CHECK(text_or(disk_world({{}, replaced}).open(path)) == first);
    CHECK(text_or(disk_world().open(path)) == "material kaolin\n");
    // The same of a file that another uses.
    folder.write("bench/shelf.shade", first);
    std::string shown;
    const World world = disk_world(
        {{}, [&] { std::ofstream(folder / "bench/shelf.shade", std::ios::app) << "# more\n"; }});
    CHECK(text_or(world.open_beside(root, root, "shelf.shade", shown)) == "<changing>");
}

TEST_CASE("an empty file is looked at again: it may be about to be written", "[world]") {
    Folder folder;
    folder.write("late", "");
    int readings = 0;
    const World world = disk_world({{}, [&] {
        if (++readings == 2) folder.write("late", "material soft base\n");
    }});
    CHECK(text_or(world.open(folder / "late")) == "material soft base\n");
    CHECK(readings == 3);
}

TEST_CASE("one file has one identity", "[world]") {
    Folder folder;
    World world = disk_world();
    fs::create_symlink("shelf.shade", folder.path / "bench/link.shade");
    std::string shown;
    std::string root = folder / "bench/orchard.shade";
    std::string identity = world.open(folder / "bench/shelf.shade").identity;
    CHECK(world.open(folder / "bench/inner/../link.shade").identity == identity);
    CHECK(world.open_beside(root, root, "link.shade", shown).identity == identity);
    CHECK(world.open(root).identity != identity);
}

TEST_CASE("use stays in the folder", "[world]") {
    Folder folder;
    World world = disk_world();
    Beside use{world, folder / "bench/orchard.shade"};
    CHECK(use("shelf.shade") == "shelf");
    CHECK(use.shown == folder / "bench/shelf.shade");
    CHECK(use("inner/deep.shade") == "deep");
    CHECK(use("./inner/../shelf.shade") == "shelf");
    CHECK(use("none.shade") == "<missing>");
    CHECK(use("") == "<missing>");
    CHECK(use(std::string("shelf.shade\0.txt", 16)) == "<missing>");
    CHECK(use("inner") == "<directory>");
    CHECK(use("../secret.shade") == "<outside>");
    CHECK(use("../none.shade") == "<outside>");
    CHECK(use("../bench/shelf.shade") == "<outside>");  // would hang on the folder's name
    CHECK(use("inner/../../secret.shade") == "<outside>");
    CHECK(use(folder / "bench/shelf.shade") == "<outside>");
    CHECK(use("inner\\deep.shade") == "<outside>");
    CHECK(use("..\\secret.shade") == "<outside>");
    Beside deep{world, folder / "bench/orchard.shade", folder / "bench/inner/deep.shade"};
    CHECK(deep("../shelf.shade") == "shelf");
    CHECK(deep("../../secret.shade") == "<outside>");
}

TEST_CASE("symbolic links are followed before the folder is judged", "[world]") {
    Folder folder;
    World world = disk_world();
    fs::create_symlink("../secret.shade", folder.path / "bench/way-out.shade");
    fs::create_symlink("..", folder.path / "bench/up");
    fs::create_symlink("loop.shade", folder.path / "bench/loop.shade");
    fs::create_symlink("bench", folder.path / "other");
    Beside use{world, folder / "bench/orchard.shade"};
    CHECK(use("way-out.shade") == "<outside>");
    CHECK(use("up/secret.shade") == "<outside>");
    CHECK(use("up/bench/shelf.shade") == "shelf");
    CHECK(use("loop.shade") == "<failed>");
    Beside through{world, folder / "other/orchard.shade"};
    CHECK(through("shelf.shade") == "shelf");
    CHECK(through("way-out.shade") == "<outside>");
}

TEST_CASE("a folder beside with a longer name is outside", "[world]") {
    Folder folder;
    fs::create_directory(folder.path / "bench2");
    folder.write("bench2/x.shade", "x");
    fs::create_symlink("../bench2/x.shade", folder.path / "bench/x.shade");
    World world = disk_world();
    Beside use{world, folder / "bench/orchard.shade"};
    CHECK(use("x.shade") == "<outside>");
}

TEST_CASE("paths without a folder", "[world]") {
    Folder folder;
    World world = disk_world();
    fs::path before = fs::current_path();
    fs::current_path(folder.path / "bench");
    Beside use{world, "orchard.shade"};
    CHECK(use("shelf.shade") == "shelf");
    CHECK(use.shown == "shelf.shade");
    CHECK(use("../secret.shade") == "<outside>");
    fs::current_path(folder.path / "bench/inner");
    Beside up{world, "../orchard.shade"};
    CHECK(up("shelf.shade") == "shelf");
    CHECK(up("inner/deep.shade") == "deep");
    CHECK(up("../secret.shade") == "<outside>");
    fs::current_path(before);
}

TEST_CASE("the world in memory keeps the same rules", "[world]") {
    World world = memory_world(
        {{"a/orchard.shade", "orchard"}, {"a/shelf.shade", "shelf"}, {"secret.shade", "secret"}});
    CHECK(text_or(world.open("a/orchard.shade")) == "orchard");
    CHECK(text_or(world.open("b")) == "<missing>");
    CHECK(world.open("a/./shelf.shade").identity == world.open("a/shelf.shade").identity);
    Beside use{world, "a/orchard.shade"};
    CHECK(use("shelf.shade") == "shelf");
    CHECK(use("../secret.shade") == "<outside>");
    CHECK(use("/secret.shade") == "<outside>");
}
