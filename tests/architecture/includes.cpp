#include "tests/architecture/includes.hpp"

#include "tests/support/text.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace levigate::testing {
namespace {

// A row of the table in DEVELOPERS.md: a room, and what it may include beside itself. An entry that
// ends in / is a whole room; else it is one file, without its ending.
struct Row {
    std::string_view room;
    std::vector<std::string_view> may;
};

// What is plain enough for every room: findings and their spans, and the numbered names that the
// formulary is full of. The tree isn't.
constexpr std::string_view finding = "grammar/finding";
constexpr std::string_view span = "grammar/span";
constexpr std::string_view near = "grammar/near";
constexpr std::string_view names = "grammar/names";
constexpr std::string_view source = "grammar/source";
constexpr std::string_view isolates = "grammar/isolates";
constexpr std::string_view measure = "interpreter/measure/";
constexpr std::string_view formulary = "interpreter/formulary/";
constexpr std::string_view sheet = "interpreter/expand/sheet";
constexpr std::string_view weighable = "interpreter/expand/weighable";
constexpr std::string_view remedies = "interpreter/expand/remedies";
constexpr std::string_view stock = "interpreter/expand/stock";
constexpr std::string_view measured = "interpreter/expand/measured";
constexpr std::string_view product = "interpreter/expand/product";
constexpr std::string_view money = "interpreter/money/";
constexpr std::string_view box = "interpreter/rules/box";
constexpr std::string_view record = "interpreter/record/record";
constexpr std::string_view recall = "interpreter/record/recall";
constexpr std::string_view stamped = "grammar/stamped";
constexpr std::string_view rescue = "interpreter/rescue/rescue";
constexpr std::string_view world = "interpreter/world";
constexpr std::string_view embedded = "interpreter/embedded";

const std::vector<Row>& table() {
    static const std::vector<std::string_view> everything{"grammar/",
                                                          measure,
                                                          formulary,
                                                          "interpreter/resolve/",
                                                          "interpreter/money/",
                                                          "interpreter/expand/",
                                                          "interpreter/plan/",
                                                          "interpreter/rules/",
                                                          "interpreter/share/",
                                                          "interpreter/record/",
                                                          "interpreter/render/",
                                                          world,
                                                          embedded,
                                                          "interpreter/compile"};
    static const std::vector<std::string_view> front_end{"interpreter/compile",
                                                         measured,
                                                         "interpreter/query/",
                                                         "interpreter/changes/",
                                                         "interpreter/history/",
                                                         "interpreter/money/",
                                                         "interpreter/plan/",
                                                         "interpreter/rules/",
                                                         "interpreter/share/",
                                                         "interpreter/rescue/",
                                                         "interpreter/record/",
                                                         "interpreter/render/",
                                                         stamped,  // it adds records to files
                                                         world,
                                                         embedded};
    static const std::vector<Row> rows{
        {"grammar", {}},
        {"interpreter/measure", {finding, span}},
        {"interpreter/formulary", {measure, source, finding, span, names, near}},
        {"interpreter/lookalike", {}},
        {"interpreter/lookalike/generate", {}},
        {"interpreter/resolve",
         {"grammar/", formulary, measure, "interpreter/lookalike/lookalike", world, embedded}},
        {"interpreter/money", {formulary, measure, finding, span, names}},
        {"interpreter/expand", {formulary, measure, money, finding, span, names, near}},
        {"interpreter/plan",
         {formulary, measure, money, "interpreter/expand/", finding, span, names, near}},
        {"interpreter/rules", {measure, formulary, sheet, product, finding, span, names, near}},
        // it proves what it writes by compiling it
        {"interpreter/share", everything},
        // what is in a bowl is expanded and judged as what was meant for it
        {"interpreter/rescue",
         {measure, formulary, "interpreter/expand/", "interpreter/rules/", finding, span, names}},
        {"interpreter/record", {measure, formulary, "interpreter/expand/", finding, span, names}},
        // a finding is shown with its line of the source; a page carries its style and script
        {"interpreter/render",
         {measure, formulary, money, sheet, weighable, remedies, stock, measured,
          "interpreter/plan/plan", box, rescue, record, recall, finding, span, names, source,
          isolates, embedded}},
        {"interpreter/query", everything},
        {"interpreter/changes", everything},
        {"interpreter/history", {world}},
        {"interpreter/cli", front_end},
        {"interpreter/compile", everything},
        {"interpreter/world", {source}},
        {"interpreter/embedded", {}},
    };
    return rows;
}

struct Include {
    std::size_t line;
    std::string target;  // with its quotes or angles: "grammar/span.hpp" or <vector>
};

std::vector<Include> includes_of(const SourceFile& file) {
    std::vector<Include> result;
    std::size_t number = 0;
    for (const std::string& line : split_lines(file.code)) {
        ++number;
        if (!line.starts_with("#include")) continue;
        const std::size_t start = line.find_first_of("\"<");
        if (start == std::string::npos) continue;
        const std::size_t end = line.find_first_of("\">", start + 1);
        result.push_back({number, line.substr(start, end - start + 1)});
    }
    return result;
}

bool is_ours(const Include& include) { return include.target.starts_with('"'); }

std::string path_in(const Include& include) {
    return include.target.substr(1, include.target.size() - 2);
}

// The files that stand in no room are each a room of their own.
std::string room_of(std::string_view path) {
    const std::string folder = folder_of(path);
    return folder == "interpreter" ? stem_of(path) : folder;
}

bool means(std::string_view may, const std::string& target) {
    return may.ends_with('/') ? target.starts_with(may) : stem_of(target) == may;
}

bool allowed(const Row& row, const std::string& target) {
    if (room_of(target) == row.room) return true;
    return std::any_of(row.may.begin(), row.may.end(),
                       [&](std::string_view may) { return means(may, target); });
}

}  // namespace

Offences wrong_directions(const std::vector<SourceFile>& files) {
    Offences offences;
    for (const SourceFile& file : files) {
        if (!is_cpp(file.path)) continue;
        const std::string room = room_of(file.path);
        const auto row = std::find_if(table().begin(), table().end(),
                                      [&](const Row& one) { return one.room == room; });
        if (row == table().end()) {
            offences.push_back(at(file, 1) + "the room " + room +
                               " isn't in the table of "
                               "tests/architecture/includes.cpp: decide what it may include");
            continue;
        }
        for (const Include& include : includes_of(file)) {
            if (!is_ours(include) || allowed(*row, path_in(include))) continue;
            offences.push_back(at(file, include.line) + room + " may not include " +
                               path_in(include));
        }
    }
    return offences;
}

Offences empty_rows(const std::vector<SourceFile>& files) {
    const auto any_file = [&](const auto& is_it) {
        return std::any_of(files.begin(), files.end(),
                           [&](const SourceFile& file) { return is_it(file.path); });
    };
    Offences offences;
    for (const Row& row : table()) {
        const std::string room(row.room);
        if (!any_file([&](const std::string& path) { return room_of(path) == room; }))
            offences.push_back("the table has a row for " + room + ", which doesn't exist");
        for (const std::string_view may : row.may)
            if (!any_file([&](const std::string& path) { return means(may, path); }))
                offences.push_back(room + " may include " + std::string(may) +
                                   ", which doesn't exist");
    }
    return offences;
}

Offences unknown_includes(const std::vector<SourceFile>& files) {
    std::set<std::string> known;
    for (const SourceFile& file : files) known.insert(file.path);
    Offences offences;
    for (const SourceFile& file : files) {
        for (const Include& include : includes_of(file)) {
            if (!is_ours(include) || known.contains(path_in(include))) continue;
            offences.push_back(at(file, include.line) + path_in(include) +
                               " is no file from the repository's root");
        }
    }
    return offences;
}

namespace {

using Graph = std::map<std::string, std::vector<std::string>>;

struct LoopSearch {
    const Graph& graph;
    std::set<std::string> done;
    std::vector<std::string> way;
    Offences offences;

    void visit(const std::string& file) {
        const auto on_way = std::find(way.begin(), way.end(), file);
        if (on_way != way.end()) {
            std::string text;
            for (auto step = on_way; step != way.end(); ++step) text += *step + " -> ";
            offences.push_back(text + file);
            return;
        }
        if (!done.insert(file).second) return;
        way.push_back(file);
        if (const auto found = graph.find(file); found != graph.end()) {
            for (const std::string& next : found->second) visit(next);
        }
        way.pop_back();
    }
};

}  // namespace

Offences include_loops(const std::vector<SourceFile>& files) {
    Graph graph;
    for (const SourceFile& file : files) {
        for (const Include& include : includes_of(file)) {
            if (is_ours(include)) graph[file.path].push_back(path_in(include));
        }
    }
    LoopSearch search{graph, {}, {}, {}};
    for (const auto& [file, targets] : graph) search.visit(file);
    return search.offences;
}

Offences library_outside(const std::vector<SourceFile>& files, std::string_view prefix,
                         std::string_view folder) {
    Offences offences;
    for (const SourceFile& file : files) {
        if (file.path.starts_with(folder)) continue;
        for (const Include& include : includes_of(file)) {
            if (!include.target.starts_with(prefix)) continue;
            offences.push_back(at(file, include.line) + include.target + " outside " +
                               std::string(folder));
        }
    }
    return offences;
}

}  // namespace levigate::testing
