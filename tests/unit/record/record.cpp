// Records: days, lots, deviations, and today's formula. Figures by hand.

#include <catch2/catch.hpp>

#include "interpreter/compile.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/record/lots.hpp"
#include "interpreter/record/record.hpp"
#include "interpreter/record/write.hpp"
#include "interpreter/resolve/resolve.hpp"

using namespace levigate;
using Strings = std::vector<std::string>;

namespace {

struct Bench {
    Compiled compiled;

    explicit Bench(const std::string& page)
        : compiled(compile(memory_world({{"a.shade", page}}), "a.shade")) {
        REQUIRE_FALSE(any_error(compiled.findings));
    }
    std::vector<Pour> pours(const std::string& words) {
        auto read = read_pours(compiled, words, "--weighed");
        INFO(words);
        REQUIRE(read.findings.empty());
        return read.value;
    }
    RecordOrder order(const std::string& weighed, const std::string& filled = "") {
        Choice choice;
        choice.batch = "full";
        RecordOrder out;
        out.sheet = expand(compiled.formulary, compiled.names, choice).sheets.at(0);
        out.weighed = pours(weighed);
        out.by = "Ines";
        out.day = "2026-12-01";
        out.filled = filled;
        if (!filled.empty()) out.size = read_size(compiled, filled, "--filled").value;
        out.formula = fingerprint(compiled.formulary, compiled.names, out.sheet);
        return out;
    }
    Strings off(const std::string& weighed, const std::string& filled = "") {
        return deviations(compiled.formulary, order(weighed, filled));
    }
    std::vector<RecordReport> reports(const std::string& text) {
        auto read = read_records(compiled, "records.shade", text);
        REQUIRE(read.findings.empty());
        return report_on(compiled.formulary, compiled.names, std::move(read.value));
    }
};

/// 10 g: 8 g of base and 2 g of clay; filled into 2 tubes of 5 g.
const std::string plain = "material base\nmaterial clay\ncontainer tube\n holds 5 g\n"
                          "container pot\n holds 5 g\n"
                          "shade S\n 80 % base\n 20 % clay\n batch full 2 tubes\n";

Strings code_names(const Findings& findings) {
    Strings out;
    for (const Finding& finding : findings) out.emplace_back(row_of(finding.code).name);
    return out;
}

}  // namespace

TEST_CASE("days of the calendar", "[record]") {
    // Gregorian: each fourth year, not each hundredth, but each four-hundredth has 29 February.
    for (const char* day : {"2024-02-29", "2000-02-29", "2026-02-28", "2026-04-30", "2026-12-31"})
        CHECK(is_day(day));
    for (const char* day : {"2026-02-29", "1900-02-29", "2100-02-29", "2024-02-30", "2026-04-31",
                            "2026-06-31", "2026-09-31", "2026-11-31", "2026-13-01", "2026-00-10",
                            "2026-01-00", "2026-01-32", "2026-1-05"})
        CHECK_FALSE(is_day(day));
    CHECK(day_meant("2026-1-5") == "2026-01-05");
    CHECK(day_meant("13.11.2026") == "2026-11-13");
    CHECK(day_meant("12.11.2026").empty());  // 12 November, or 11 December
    CHECK(day_meant("31.11.2026").empty());
}

TEST_CASE("of a lot no more is weighed than there is of it", "[record]") {
    Bench bench(plain + "shelf\n have 10 g base, lot A\n have 5 g clay, lot A\n");
    const auto over = [&](const std::string& weighed) {
        return lots_over(bench.compiled.formulary, bench.compiled.names, bench.pours(weighed))
            .size();
    };
    CHECK(over("10 g base lot A") == 0);  // all of it
    CHECK(over("10.01 g base lot A") == 1);
    CHECK(over("6 g base lot A, 4.01 g base lot A") == 1);
    // Two materials, each with a lot of that name: 6 and 5 g are no 11 g of either.
    CHECK(over("6 g base lot A, 5 g clay lot A") == 0);
    CHECK(over("6 g base lot A, 5.01 g clay lot A") == 1);
}

TEST_CASE("a lot is good up to its last day", "[record]") {
    Bench bench(plain + "shelf\n have 10 g base, lot A, best before 2026-11-30\n"
                        " have 10 g clay, lot A\n");
    const auto past = [&](const std::string& weighed, const std::string& day) {
        return lots_past(bench.compiled.formulary, bench.compiled.names, bench.pours(weighed), day)
            .size();
    };
    CHECK(past("8 g base lot A", "2026-11-29") == 0);
    CHECK(past("8 g base lot A", "2026-11-30") == 0);
    CHECK(past("8 g base lot A", "2026-12-01") == 1);
    CHECK(past("2 g clay lot A", "2026-12-01") == 0);
}

TEST_CASE("what was otherwise than planned", "[record]") {
    Bench bench(plain);
    CHECK(bench.off("8 g base, 2 g clay").empty());
    // Of the 8 g that were planned, not of what was weighed: 2 g are 25 %.
    CHECK(bench.off("10 g base, 2 g clay") == Strings{"base: 2 g more than planned (25.00 %)."});
    CHECK(bench.off("6 g base, 2 g clay") == Strings{"base: 2 g less than planned (25.00 %)."});
    CHECK(bench.off("8 g base") == Strings{"clay: planned, and not weighed."});
    // Other containers than planned are no fewer of them.
    CHECK(bench.off("8 g base, 2 g clay", "2 tubes").empty());
    CHECK(bench.off("8 g base, 2 g clay", "1 tube") ==
          Strings{"1 tube were filled, and 2 tubes were planned."});
    CHECK(bench.off("8 g base, 2 g clay", "1 pot").empty());
}

TEST_CASE("of what was planned as nothing there is no per cent", "[record]") {
    // 0.01 % of 10 g reads 0.00 g.
    Bench bench("material base\nmaterial clay\nshade S\n rest base\n 0.01 % clay\n"
                " batch full 10 g\n");
    CHECK(bench.off("10 g base, 0.01 g clay") == Strings{"clay: 0.01 g more than planned."});
}

TEST_CASE("a brace in a name opens no hole in a record", "[record]") {
    Bench bench("material base\nmaterial \"clay {a}\"\nshade S\n 80 % base\n 20 % \"clay {a}\"\n"
                " batch full 10 g\n");
    CHECK(bench.off("8 g base") == Strings{"clay (a): planned, and not weighed."});
    auto back = read_records(bench.compiled, "records.shade",
                             record_text(bench.compiled.formulary, bench.order("8 g base")));
    CHECK(code_names(back.findings).empty());
    REQUIRE(back.value.size() == 1);
    CHECK(back.value[0].deviations == Strings{"clay (a): planned, and not weighed."});
}

TEST_CASE("a record keeps what was weighed as it was read", "[record]") {
    Bench bench("material base\nmaterial lot nine\nmaterial \"Rose, red\"\n"
                "shade S\n 80 % base\n 10 % \"Rose, red\"\n 10 % \"lot nine\"\n batch full 10 g\n");
    const std::string words =
        "8.0125 g base lot \"24 B in W\", 1 g \"Rose, red\" lot 7, 1 g \"lot nine\"";
    const std::string text = record_text(bench.compiled.formulary, bench.order(words));
    INFO(text);
    // In quotes, so that no word of it can be taken for one of the line's own.
    CHECK(text.find("lot \"24 B in W\"") != std::string::npos);
    auto back = read_records(bench.compiled, "records.shade", text);
    CHECK(code_names(back.findings).empty());
    REQUIRE(back.value.size() == 1);
    const std::vector<Pour>& weighed = back.value[0].weighed;
    REQUIRE(weighed.size() == 3);
    CHECK(in_grams(weighed[0].mass) == Exact(80125, 10000));
    CHECK(weighed[0].lot == "24 B in W");
    CHECK(bench.compiled.formulary.name(weighed[1].what) == "Rose, red");
    CHECK(bench.compiled.formulary.name(weighed[2].what) == "lot nine");
}

TEST_CASE("a merge mark at the end cuts no record off", "[record]") {
    Bench bench(plain);
    const std::string record = "record 2026-11-25 full of S\n    planned  8 g base\n"
                               "    weighed  8 g base\n    by Ines\n"
                               "    formula  0123456789abcdef\n";
    const auto codes = [&](const std::string& text) {
        return code_names(read_records(bench.compiled, "records.shade", text).findings);
    };
    CHECK(codes(record).empty());
    CHECK(codes(record + ">>>>>>> other\n") == Strings{"text-merge-marker"});
    CHECK(codes(record + "record 2026-11-26 full of S\n    planned  8 g ba\n") ==
          Strings{"record-unfinished"});
}

TEST_CASE("what one blend alone holds went into it, what the shade holds too didn't", "[record]") {
    Bench bench("material base\nmaterial clay\nmaterial mica\n"
                "blend W\n 1 part clay\n 3 parts mica\nshade S\n rest base\n 20 % W\n"
                " 10 % clay\n batch full 10 g\n");
    const RecordOrder order = bench.order("7 g base, 1.5 g mica, 1 g clay, 0.5 g clay, 2 g W");
    std::vector<Pour> weighed = order.weighed;
    weighed[3].bowl = "W";
    place_pours(bench.compiled.formulary, planned_pours(bench.compiled.formulary, order.sheet),
                weighed);
    Strings bowls;
    for (const Pour& pour : weighed) bowls.push_back(pour.bowl);
    CHECK(bowls == Strings{"", "W", "", "W", ""});
}

TEST_CASE("a record's lines: a lot is named once, and a blend's things stand with it", "[record]") {
    Bench bench("material base\nmaterial mica\nblend W\n 1 part mica\n"
                "shade S\n rest base\n 20 % W\n batch full 10 g\n");
    const auto reports = bench.reports(
        "record 2026-11-25 full of S\n    planned  8 g base\n    planned  2 g W\n"
        "    planned  2 g mica, in W\n    weighed  4 g base, lot A\n    weighed  3 g base, lot A\n"
        "    weighed  1 g base, lot B\n    weighed  2 g mica\n    by Ines\n"
        "    formula  0123456789abcdef\n");
    REQUIRE(reports.size() == 1);
    REQUIRE(reports[0].lines.size() == 3);
    CHECK(reports[0].lines[0].lots == Strings{"A", "B"});
    CHECK(in_grams(*reports[0].lines[0].weighed) == 8);
    CHECK(reports[0].lines[2].bowl == "W");
    CHECK(in_grams(*reports[0].lines[2].weighed) == 2);
    CHECK(in_grams(reports[0].in) == 8);  // into the shade's own bowl
}

TEST_CASE("each record is held against its own product of today", "[record]") {
    // Planned were 4 g and 1 g of the blend. Today the blend is half and half, and the finish adds
    // as much clay again as there is base: by a plan of 6 g, 2 g of it.
    Bench bench("material base\nmaterial clay\nmaterial mica\nblend W\n 1 part mica\n 1 part clay\n"
                "shade S\n 50 % base\n 50 % W\n finishes bare, matte\n batch full 6 g\n"
                "finish bare\n note As it is.\nfinish matte\n add as much clay as the bulk\n");
    const std::string pours = "    planned  4 g base\n    planned  2 g W\n"
                              "    planned  1 g mica, in W\n    planned  1 g clay, in W\n"
                              "    weighed  4 g base\n    by Ines\n    formula  0123456789abcdef\n";
    const auto reports = bench.reports("record 2026-11-25 full of S / bare\n" + pours +
                                       "\nrecord 2026-11-26 full of S / matte\n" + pours);
    REQUIRE(reports.size() == 2);
    const auto today = [](const RecordReport& report, const std::string& bowl,
                          const std::string& name) {
        for (const RecordLine& line : report.lines)
            if (line.bowl == bowl && line.name == name)
                return line.today ? in_grams(*line.today).fraction() : std::string("none");
        return std::string("no line");
    };
    // 6 g of the shade's bowl and 2 g of the blend's, as they were planned.
    CHECK(today(reports[0], "", "base") == "3");
    CHECK(today(reports[0], "", "W") == "3");
    CHECK(today(reports[0], "W", "mica") == "1");
    CHECK(today(reports[0], "", "clay") == "no line");
    CHECK(today(reports[1], "", "base") == "3/2");
    CHECK(today(reports[1], "", "clay") == "3");
    for (const RecordReport& report : reports)
        CHECK(report.formula == RecordReport::Formula::changed);
}

TEST_CASE("a fingerprint tells names, shares and bowls apart", "[record]") {
    const auto print = [](const std::string& lines) {
        Bench bench("material base\nmaterial clay\nmaterial mica\nblend W\n 1 part mica\n"
                    " 1 part clay\nshade S\n" +
                    lines + " batch full 6 g\n");
        return bench.order("1 g base").formula;
    };
    const std::string first = print(" 50 % base\n 50 % W\n");
    CHECK(first.size() == 16);
    CHECK(print(" 5 parts base\n 5 parts W\n") == first);
    CHECK(print(" 51 % base\n 49 % W\n") != first);
    CHECK(print(" 50 % clay\n 50 % W\n") != first);
    CHECK(print(" 50 % base\n 25 % mica\n 25 % clay\n") != first);
}
