#include "tests/hostile/generate.hpp"

#include <fstream>
#include <string>

namespace levigate::testing::hostile {
namespace {

using Out = std::ofstream;

Out open(const Path& folder, const std::string& name = "hostile.shade") {
    return Out(folder / name, std::ios::binary);
}

void repeat(Out& out, std::string_view text, int times) {
    for (int i = 0; i < times; ++i) out << text;
}

constexpr std::string_view simple_shade = "material soft base\n    role base\n"
                                          "material copper mica\n    role mica\n"
                                          "shade Quince\n    rest soft base\n"
                                          "    18 % copper mica\n    batch trial 6 g\n";

void materials(Out& out, int count) {
    for (int i = 0; i < count; ++i) out << "material m" << i << "x\n";
}

void lines(Out& out, int count) {
    for (int i = 0; i < count; ++i) out << "    1 part m" << i << "x\n";
}

void brackets(Out& out, int deep, std::string_view before, std::string_view behind) {
    out << simple_shade << before;
    repeat(out, "(", deep);
    out << "2 %";
    repeat(out, ")", deep);
    out << behind << "\n";
}

bool is_prime(int number) {
    for (int i = 2; i * i <= number; ++i)
        if (number % i == 0) return false;
    return number > 1;
}

}  // namespace

// ---- Text --------------------------------------------------------------------------------------

void line_of_100_megabytes(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "    note ";
    repeat(out, "stir until it is smooth, ", 4'000'000);
}

void line_of_15_megabytes(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "    note ";
    repeat(out, "stir until it is smooth, ", 600'000);
}

void half_a_million_bad_lines(const Path& folder) {
    Out out = open(folder);
    out << simple_shade;
    repeat(out, "    what is this\n", 500'000);
}

void a_list_of_200000_lines(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "    finishes satin";
    repeat(out, ",\n        satin", 200'000);
    out << "\n    18 % no such mica\n";
}

void merge_marks(const Path& folder) {
    Out out = open(folder);
    out << simple_shade;
    repeat(out, "<<<<<<< mine\n=======\n>>>>>>> hers\n", 200'000);
}

void brackets_100000(const Path& folder) {
    Out out = open(folder);
    brackets(out, 100'000, "    ", " copper mica");
}

void brackets_30000(const Path& folder) {
    Out out = open(folder);
    brackets(out, 30'000, "    ", " copper mica");
}

void brackets_in_a_step(const Path& folder) {
    Out out = open(folder);
    brackets(out, 30'000, "    step Stir {", "}");
}

// ---- Names -------------------------------------------------------------------------------------

void blends_60_by_2(const Path& folder) {
    Out out = open(folder);
    out << "material copper mica\nmaterial silver mica\n";
    constexpr int levels = 60;
    for (int i = 0; i < levels; ++i) {
        for (const char side : {'a', 'b'}) {
            out << "blend level " << i << side << "\n";
            if (i + 1 == levels)
                out << "    1 part copper mica\n    1 part silver mica\n";
            else
                out << "    1 part level " << i + 1 << "a\n    1 part level " << i + 1 << "b\n";
        }
    }
    out << "shade Quince\n    50 % \"level 0a\"\n    50 % \"level 0b\"\n    batch trial 8 g\n";
}

void blends_in_a_chain(const Path& folder) {
    Out out = open(folder);
    out << "material copper mica\n";
    constexpr int deep = 20'000;
    for (int i = 0; i < deep; ++i) {
        out << "blend b" << i << "x\n    1 part copper mica\n";
        if (i + 1 < deep) out << "    1 part b" << i + 1 << "x\n";
    }
    out << "shade Quince\n    100 % b0x\n    batch trial 6 g\n";
}

void likes_in_a_chain(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "shade s0x like Quince\n";
    for (int i = 1; i < 20'000; ++i) out << "shade s" << i << "x like s" << i - 1 << "x\n";
}

void lets_in_a_chain(const Path& folder) {
    Out out = open(folder);
    constexpr int shades = 100, each = 1'900;
    out << simple_shade << "shade s0x\n    rest soft base\n    {a0} copper mica\n";
    for (int i = 0; i < shades * each; ++i) {
        if (i > 0 && i % each == 0)
            out << "shade s" << i / each << "x like s" << i / each - 1 << "x\n";
        out << "    let {a" << i << "} = (1 × {a" << i + 1 << "})\n";
    }
    out << "    let {a" << shades * each << "} = 2 %\n    batch trial 6 g\n";
}

void units_in_a_chain(const Path& folder) {
    Out out = open(folder);
    constexpr int deep = 50'000;
    for (int i = 0; i < deep; ++i) out << "unit u" << i << "x = 1 u" << i + 1 << "x\n";
    out << simple_shade << "shade Damson\n    (3 u0x) soft base\n    batch trial 6 g\n";
}

void files_in_a_chain(const Path& folder) {
    constexpr int deep = 1'000;
    for (int i = 0; i < deep; ++i) {
        Out out = open(folder, i == 0 ? "hostile.shade" : "f" + std::to_string(i) + ".shade");
        if (i == 0) out << simple_shade;
        out << "use \"f" << i + 1 << ".shade\"\n";
    }
}

void unknown_names(const Path& folder) {
    Out out = open(folder);
    const std::string long_name(60, 'n');
    constexpr int count = 5'000;
    for (int i = 0; i < count; ++i) out << "material " << long_name << " m" << i << "x\n";
    for (int i = 0; i < count; ++i) {
        if (i % 500 == 0) out << "shade Quince" << i << "x\n    batch trial 6 g\n";
        out << "    1 part " << long_name << " q" << i << "y\n";
    }
}

void blocks_of_one_name(const Path& folder) {
    Out out = open(folder);
    out << simple_shade;
    repeat(out, "material soft base\n", 200'000);
}

// ---- Numbers -----------------------------------------------------------------------------------

void denominators_to_2000(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 1'999;
    materials(out, count);
    out << "shade Quince\n";
    for (int i = 0; i < count; ++i) out << "    1/" << i + 1 << " part m" << i << "x\n";
    out << "    batch full 1000 kg\n";
}

void prime_denominators(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 1'500;
    materials(out, count);
    out << "shade Quince\n";
    int prime = 2;
    for (int i = 0; i < count; ++i) {
        while (!is_prime(prime)) ++prime;
        out << "    1/" << prime++ << " part m" << i << "x\n";
    }
    out << "    batch full 1000 kg\n";
}

void squares_of_squares(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "shade Damson\n    rest soft base\n    (1 % × {a0}) copper mica\n";
    constexpr int deep = 60;
    for (int i = 0; i < deep; ++i)
        out << "    let {a" << i << "} = ({a" << i + 1 << "} × {a" << i + 1 << "})\n";
    out << "    let {a" << deep << "} = 1.0001\n    batch trial 6 g\n";
}

// ---- Work --------------------------------------------------------------------------------------

void family_of_a_million(const Path& folder) {
    Out out = open(folder);
    out << simple_shade << "shade Damson like Quince\n    set 3 % copper mica\n"
        << "family Hedge\n    between Quince and Damson in 1000000 steps\n"
        << "    name Hedge {step}\n";
}

void family_of_long_formulas(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 1'900;
    materials(out, count);
    out << "shade Quince\n";
    lines(out, count);
    out << "    batch full 1000 kg\nshade Damson like Quince\n    set 2 parts m0x\n"
        << "family Hedge\n    between Quince and Damson in 1000 steps\n    name Hedge {step}\n";
}

void shades_of_long_formulas(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 1'900;
    materials(out, count);
    out << "shade Quince\n";
    lines(out, count);
    out << "    batch full 1000 kg\n";
    for (int i = 0; i < 20'000; ++i) out << "shade s" << i << "x like Quince\n";
}

namespace {

void many_sheets(const Path& folder, std::string_view expect) {
    Out out = open(folder);
    constexpr int count = 300;
    out << simple_shade;
    for (int i = 0; i < count; ++i)
        out << "variant v" << i << "x\n    scale the mica by 1/2\nfinish f" << i
            << "x\n    add 5 % kaolin\n";
    out << "shade Damson like Quince\n    variants v0x";
    for (int i = 1; i < count; ++i) out << ", v" << i << "x";
    out << "\n    finishes f0x";
    for (int i = 1; i < count; ++i) out << ", f" << i << "x";
    out << "\n    expect " << expect << "\n";
    for (int i = 0; i < count; ++i) out << "    batch b" << i << "x " << i + 6 << " g\n";
}

}  // namespace

void sheets_27_million(const Path& folder) { many_sheets(folder, "the whole at least 1 g"); }

void sheets_27_million_that_fail(const Path& folder) {
    many_sheets(folder, "the mica at most 1 %");
}

void volumes_with_ends(const Path& folder) {
    Out out = open(folder);
    constexpr int blends = 150, lines_each = 10;
    for (int i = 0; i < blends * lines_each; ++i)
        out << "material m" << i << "x\n    density " << 7 + i % 13 << "/10 g/mL ± 3 %\n";
    for (int b = 0; b < blends; ++b) {
        out << "blend b" << b << "x\n";
        for (int i = 0; i < lines_each; ++i)
            out << "    " << i + 1 << " mL m" << b * lines_each + i << "x\n";
    }
    out << "shade Quince\n";
    for (int b = 0; b < blends; ++b) out << "    " << 1 + b % 7 << " mL b" << b << "x\n";
    for (int i = 0; i < 100; ++i) out << "    batch t" << i << " " << i + 2000 << " mL\n";
}

void swaps_and_steps(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 1'000;
    materials(out, count);
    out << "material soft base\n"
        << "shade Quince\n    rest soft base\n    1 % m0x\n    batch trial 6 g\n";
    for (int i = 0; i < 900; ++i) out << "    step Stir {m0x} and {soft base} well.\n";
    out << "shade Damson like Quince\n";
    for (int i = 0; i + 1 < count; ++i) out << "    swap m" << i << "x for m" << i + 1 << "x\n";
    out << "    without m0x\n";
}

void many_dilutions(const Path& folder) {
    Out out = open(folder);
    constexpr int count = 900;
    materials(out, count);
    out << "material soft base\nmaterial wax\nshade Quince\n    rest soft base\n"
        << "    batch trial 6 g\n    batch full 9 kg\n";
    for (int i = 0; i < count; ++i)
        out << "    0.01 % m" << i << "x\n    dilute m" << i << "x to 20 % in soft base\n";
    for (int i = 0; i < 60; ++i)
        out << "shade S" << i << "x like Quince\n    dilute m" << i << "x to 25 % in soft base\n";
    out << "shade Last like Quince\n    without soft base\n    add rest wax\n";
}

void long_notes(const Path& folder) {
    Out out = open(folder);
    out << "material soft base\n";
    // Of each its own: the same note is printed once.
    for (int i = 0; i < 250; ++i)
        out << "shade Quince " << i << "\n    1 part soft base\n    batch trial 6 g\n    note " << i
            << " <" << std::string(60'000, '<') << "\n";
}

}  // namespace levigate::testing::hostile
