// Ends of figures: random pages whose figures have `±`, against the same pages with other figures
// between the ends, made by the plain way. Whatever the figures really are, no sheet passes its
// ends; and where no figure has a part in two places, some figures reach them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "interpreter/compile.hpp"
#include "interpreter/render/html_card.hpp"

using namespace levigate;

namespace {

constexpr std::uint64_t ends_seed = 20261129;
constexpr int rounds = 150;

struct Figure {
    Exact stated, by;
    const char* measure;
};

/// A page whose figures are filled in later, with their ends or with others in their place.
struct Page {
    std::vector<Figure> figures;
    std::vector<std::string> text;  ///< what stands before each figure, and at last behind all
    bool poured = false;            ///< some line is a volume
    bool twice = false;             ///< a figure may have a part in two places

    std::string stated() const {
        std::string out;
        for (std::size_t i = 0; i < figures.size(); ++i) {
            const Figure& one = figures[i];
            out += text[i] + one.stated.fraction() + one.measure;
            if (one.by.sign() > 0) out += " ± " + one.by.fraction() + one.measure;
        }
        return out + text.back();
    }
    /// `way`: from 0, the least, to 8, the most.
    std::string real(const std::vector<int>& way) const {
        std::string out;
        for (std::size_t i = 0; i < figures.size(); ++i) {
            const Exact value = figures[i].stated + figures[i].by * Exact(way[i] - 4, 4);
            out += text[i] + value.fraction() + figures[i].measure;
        }
        return out + text.back();
    }
};

class Writer {
public:
    explicit Writer(std::mt19937_64& random) : random_(random) {}

    Page operator()() {
        materials_ = between(2, 4);
        for (int i = 0; i < materials_; ++i) add_material(i);
        words_ += "container tube\n holds ";
        figure(Exact(between(3, 6)), " mL");
        words_ += "\n";
        blend_ = between(0, 2) == 0;
        if (blend_) add_blend();
        words_ += "shade S\n";
        between(0, 1) == 0 ? add_shares() : add_weights();
        words_ += " batch a 100 g\n batch b 50 mL\n batch c 20 tubes, overage 5 %, holdback 2 mL\n";
        page_.text.push_back(words_);
        return std::move(page_);
    }

private:
    int between(int low, int high) {
        return low + static_cast<int>(random_() % static_cast<std::uint64_t>(high - low + 1));
    }
    void figure(const Exact& stated, const char* measure) {
        page_.text.push_back(std::move(words_));
        words_.clear();
        page_.figures.push_back({stated, stated * Exact(between(0, 3) * 4, 100), measure});
    }
    void add_material(int i) {
        words_ += "material m" + std::to_string(i) + "\n density ";
        figure(Exact(between(6, 30), 10), " g/mL");
        words_ += "\n";
        if (between(0, 3) > 0) return;
        words_ += " bulk ";
        figure(Exact(between(2, 5), 10), " g/mL");
        words_ += "\n";
        bulk_ = true;
    }
    void add_blend() {
        words_ += "blend B\n 10 g m0\n " + std::to_string(between(1, 9)) + " mL m1\n";
        page_.poured = page_.twice = true;
    }
    std::string volume(int most) {
        page_.poured = true;
        return std::to_string(between(1, most)) + " mL";
    }
    void add_shares() {
        words_ += " rest m0\n";
        for (int i = 1; i < materials_; ++i)
            words_ += between(0, 1) == 0
                          ? " " + std::to_string(between(1, 20)) + " % m" + std::to_string(i) + "\n"
                          : " " + volume(6) + " per 100 g m" + std::to_string(i) + "\n";
        if (blend_) words_ += " " + std::to_string(between(1, 20)) + " % B\n";
    }
    void add_weights() {
        for (int i = 0; i < materials_; ++i)
            words_ += " " +
                      (between(0, 1) == 0 ? std::to_string(between(1, 20)) + " g" : volume(9)) +
                      " m" + std::to_string(i) + "\n";
        if (blend_) words_ += " " + (between(0, 1) == 0 ? "4 g" : volume(9)) + " B\n";
    }

    std::mt19937_64& random_;
    Page page_;
    std::string words_;
    int materials_ = 0;
    bool blend_ = false, bulk_ = false;
};

Sheets sheets_of(const std::string& page) {
    Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
    INFO(page);
    REQUIRE_FALSE(any_error(compiled.findings));
    Choice choice;
    choice.reading = Reading{grams(Exact(1, 1000000)), 6, {}, {}, {}};
    Sheets out = expand(compiled.formulary, compiled.names, choice);
    REQUIRE(out.sheets.size() == 3);
    return out;
}

/// What there is to compare of a sheet: its total, its lines, and how many tubes it fills.
struct Seen {
    std::vector<Exact> grams;
    Exact each;  ///< grams of a tube that is full
};
Seen seen(const Sheets& sheets, std::size_t sheet, const Exact& holds) {
    Seen out;
    out.grams.push_back(in_grams(sheets.sheets[sheet].total));
    for (const Bowl& bowl : sheets.sheets[sheet].bowls)
        for (const SheetLine& line : bowl.lines) out.grams.push_back(in_grams(line.exact));
    out.each = holds * in_grams(sheets.sheets[1].total) / 50;  // batch b is 50 mL
    return out;
}

std::vector<std::optional<Ends>> ends_of(const Sheet& sheet) {
    REQUIRE(sheet.ends);
    std::vector<std::optional<Ends>> out{sheet.ends->total};
    for (const auto& bowl : sheet.ends->lines) out.insert(out.end(), bowl.begin(), bowl.end());
    return out;
}

std::size_t tube_figure(const Page& page) {
    for (std::size_t i = 0; i < page.figures.size(); ++i)
        if (page.text[i].find("container tube") != std::string::npos) return i;
    return 0;
}

bool any_ends(const Page& page) {
    return std::any_of(page.figures.begin(), page.figures.end(),
                       [](const Figure& one) { return one.by.sign() > 0; });
}

}  // namespace

TEST_CASE("no figures between the ends make a sheet that passes its own") {
    std::mt19937_64 random(ends_seed);
    int compared = 0;
    for (int round = 0; round < rounds; ++round) {
        const Page page = Writer(random)();
        if (!any_ends(page)) continue;
        const Sheets stated = sheets_of(page.stated());
        const std::size_t tube = tube_figure(page);
        for (int draw = 0; draw < 12; ++draw) {
            std::vector<int> way;
            for (std::size_t i = 0; i < page.figures.size(); ++i)
                way.push_back(draw < 6 ? static_cast<int>(random() % 2) * 8
                                       : static_cast<int>(random() % 9));
            const Sheets real = sheets_of(page.real(way));
            const Figure& held = page.figures[tube];
            const Exact holds = held.stated + held.by * Exact(way[tube] - 4, 4);
            for (std::size_t s = 0; s < 3; ++s) {
                INFO(page.stated() << "against\n" << page.real(way) << "sheet " << s);
                const Seen now = seen(real, s, holds);
                const auto ends = ends_of(stated.sheets[s]);
                REQUIRE(ends.size() == now.grams.size());
                for (std::size_t i = 0; i < ends.size(); ++i) {
                    REQUIRE(ends[i]);
                    CHECK(ends[i]->least <= now.grams[i]);
                    CHECK(ends[i]->most >= now.grams[i]);
                    ++compared;
                }
                if (s != 0 || !stated.sheets[s].ends->pieces) continue;
                CHECK(stated.sheets[s].ends->pieces->least <= 100 / now.each);
                CHECK(stated.sheets[s].ends->pieces->most >= 100 / now.each);
            }
        }
    }
    CHECK(compared > 10000);
}

TEST_CASE("ends are reached where no figure has a part in two places") {
    std::mt19937_64 random(ends_seed + 1);
    int reached = 0;
    for (int round = 0; round < rounds; ++round) {
        const Page page = Writer(random)();
        if (!any_ends(page) || page.twice || page.figures.size() > 6) continue;
        // By weight a density makes grams of one line alone; by volume only of the whole.
        const std::size_t sheet = page.poured ? 0 : 2;
        const Sheets stated = sheets_of(page.stated());
        const auto ends = ends_of(stated.sheets[sheet]);
        std::vector<Ends> met;
        for (unsigned corner = 0; corner < 1u << page.figures.size(); ++corner) {
            std::vector<int> way;
            for (std::size_t i = 0; i < page.figures.size(); ++i)
                way.push_back((corner >> i & 1u) != 0 ? 8 : 0);
            const Seen now = seen(sheets_of(page.real(way)), sheet, 1);
            for (std::size_t i = 0; i < now.grams.size(); ++i) {
                if (met.size() <= i) met.push_back(Ends::at(now.grams[i]));
                met[i].least = std::min(met[i].least, now.grams[i]);
                met[i].most = std::max(met[i].most, now.grams[i]);
            }
        }
        INFO(page.stated());
        REQUIRE(met.size() == ends.size());
        for (std::size_t i = 0; i < ends.size(); ++i) {
            REQUIRE(ends[i]);
            CHECK(met[i].least == ends[i]->least);
            CHECK(met[i].most == ends[i]->most);
            reached += ends[i]->open();
        }
    }
    CHECK(reached > 100);
}

TEST_CASE("the bench page tells the range of a batch by volume") {
    Compiled compiled = compile(memory_world({{"a.shade", "material m\n density 0.9 g/mL ± 10 %\n"
                                                          "shade S\n 1 part m\n batch t 10 mL\n"}}),
                                "a.shade");
    Sheets all = expand(compiled.formulary, compiled.names, {});
    REQUIRE(all.sheets.size() == 1);
    BenchPage page(compiled.formulary);
    page.append(all.sheets[0]);
    // 10 mL of 0.9 g/mL, from 0.81 to 0.99
    CHECK(page.page("a.shade").find("<b>9.00 g</b> (estimate: from a volume, 8.10 to 9.90 g)") !=
          std::string::npos);
}

TEST_CASE("where other ends would be another formula, they can't be told") {
    const std::string head = "material m0\n density 1 g/mL\n role base\n"
                             "material m1\n density 0.8 g/mL ± 5 %\n";
    const auto line_ends = [&](const std::string& formula) {
        const std::string page = head + formula + " batch a 100 g\n";
        Compiled compiled = compile(memory_world({{"a.shade", page}}), "a.shade");
        INFO(page);
        REQUIRE_FALSE(any_error(compiled.findings));
        const Sheets all = expand(compiled.formulary, compiled.names, {});
        REQUIRE_FALSE(all.sheets.empty());
        REQUIRE(all.sheets.back().ends);
        return all.sheets.back().ends->lines.back().back();
    };
    CHECK(line_ends("shade S\n 10 g m0\n 2 mL m1\n").has_value());
    CHECK_FALSE(line_ends("material m2\nshade S\n 10 g m0\n 2 mL m1\n half as much m2 as m1\n"));
    CHECK_FALSE(line_ends("shade S\n 96 % m0\n 5 mL per 100 g m1\n"));
    // A volume whose density is known outright leaves the rest as it is.
    CHECK(line_ends("material m2\nshade S\n 10 g m1\n 2 mL m0\n half as much m2 as m1\n"));
}
