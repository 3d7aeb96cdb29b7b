#include "tests/hostile/deep.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <random>

namespace levigate::testing::hostile {
namespace {

Blocks materials() {
    return {"material soft base\n    role base\n", "material copper mica\n    role mica\n"};
}

/// The materials, `count` blocks, and what ends it.
template <typename Block>
Blocks chain(int count, Block block, const std::string& last = {}) {
    Blocks out = materials();
    for (int i = 0; i < count; ++i) out.push_back(block(i));
    if (!last.empty()) out.push_back(last);
    return out;
}

std::string over_first() { return "shade Quince\n    100 % b0x\n    batch trial 60 g\n"; }

std::string plain(const std::string& amount, const std::string& more = {}) {
    return fmt::format("shade Quince\n    rest soft base\n    {} copper mica\n{}"
                       "    batch trial 6 g\n",
                       amount, more);
}

/// Of a chain of `deep`: half mica, half the next.
auto link_of(int deep) {
    return [deep](int i) {
        return fmt::format("blend b{}x\n    1 part copper mica\n    1 part {}\n", i,
                           i + 1 < deep ? fmt::format("b{}x", i + 1) : "soft base");
    };
}

std::string repeated(std::string_view text, int times) {
    std::string out;
    for (int i = 0; i < times; ++i) out += text;
    return out;
}

}  // namespace

std::string in_order(const Blocks& blocks, Order order) {
    Blocks sorted = blocks;
    if (order == Order::backwards) std::reverse(sorted.begin(), sorted.end());
    if (order == Order::shuffled) std::shuffle(sorted.begin(), sorted.end(), std::mt19937(14));
    std::string out;
    for (const std::string& block : sorted) out += block;
    return out;
}

// ---- Chains ------------------------------------------------------------------------------------

Blocks blends_deep(int deep) { return chain(deep, link_of(deep), over_first()); }

Blocks parts_deep(int deep) {
    return chain(deep, [](int i) {
        return fmt::format("shade s{}x\n    1 part copper mica\n    1 part {}\n"
                           "    batch trial 6 g\n",
                           i, i > 0 ? fmt::format("s{}x", i - 1) : "soft base");
    });
}

Blocks likes_deep(int deep) {
    return chain(deep, [](int i) {
        if (i == 0)
            return std::string("shade s0x\n    rest soft base\n    3 % copper mica\n"
                               "    batch trial 6 g\n");
        return fmt::format("shade s{}x like s{}x\n    set {}/10 % copper mica\n", i, i - 1,
                           20 + i % 50);
    });
}

Blocks blends_like_deep(int deep) {
    const auto block = [](int i) {
        if (i == 0) return std::string("blend b0x\n    rest soft base\n    3 % copper mica\n");
        return fmt::format("blend b{}x like b{}x\n    set {}/10 % copper mica\n", i, i - 1,
                           20 + i % 50);
    };
    return chain(deep, block, over_first());
}

Blocks units_deep(int deep) {
    const auto block = [deep](int i) {
        return fmt::format("unit u{}x = 1 {}\n", i,
                           i + 1 < deep ? fmt::format("u{}x", i + 1) : "g");
    };
    return chain(deep, block, "shade Quince\n    (3 u0x) soft base\n    batch trial 6 g\n");
}

namespace {

Blocks with_lets(int deep, std::string_view before, std::string_view behind) {
    std::string lets;
    for (int i = 0; i < deep; ++i)
        lets += fmt::format("    let {{a{}}} = {}{}{}\n", i, before,
                            i + 1 < deep ? fmt::format("{{a{}}}", i + 1) : "2 %", behind);
    return chain(0, link_of(0), plain("{a0}", lets));
}

}  // namespace

Blocks lets_deep(int deep) { return with_lets(deep, "", " × 1"); }

Blocks bracketed_lets_deep(int deep) {
    return with_lets(deep, repeated("1 × (", 38), std::string(38, ')'));
}

Blocks diamond_deep(int deep) {
    const auto block = [deep](int i) {
        const auto next = [&](int by) {
            if (i + by < deep) return fmt::format("b{}x", i + by);
            return std::string(by == 1 ? "copper mica" : "soft base");
        };
        return fmt::format("blend b{}x\n    1 part {}\n    1 part {}\n", i, next(1), next(2));
    };
    return chain(deep, block, over_first());
}

Blocks dilutions_deep(int deep) {
    const auto block = [deep](int i) {
        return fmt::format("blend b{}x\n    1 % copper mica\n    50 % {}\n    rest soft base\n"
                           "    dilute copper mica to 20 % in soft base\n",
                           i, i + 1 < deep ? fmt::format("b{}x", i + 1) : "wax");
    };
    Blocks out = chain(deep, block, over_first());
    out.push_back("material wax\n");
    return out;
}

Blocks mentions_deep(int deep) {
    const auto block = [deep](int i) {
        return fmt::format("blend b{}x\n    1 part copper mica\n    1 part soft base\n{}", i,
                           i + 1 < deep ? fmt::format("    step Stir as {{b{}x}}.\n", i + 1) : "");
    };
    return chain(deep, block, over_first());
}

Blocks lets_down_likes(int deep) {
    return chain(deep, [](int i) {
        if (i == 0)
            return std::string("shade s0x\n    rest soft base\n    {d} copper mica\n"
                               "    let {d} = 3 %\n    batch trial 6 g\n");
        return fmt::format("shade s{}x like s{}x\n    let {{d}} = {}/10 %\n", i, i - 1,
                           20 + i % 50);
    });
}

// ---- Rings -------------------------------------------------------------------------------------

Blocks ring_of_blends(int count) {
    const auto block = [count](int i) {
        return fmt::format("blend b{}x\n    1 part copper mica\n    1 part b{}x\n", i,
                           (i + 1) % count);
    };
    return chain(count, block, over_first());
}

Blocks ring_of_likes(int count) {
    return chain(count, [count](int i) {
        return fmt::format("shade s{}x like s{}x\n", i, (i + 1) % count);
    });
}

Blocks ring_of_units(int count) {
    const auto block = [count](int i) {
        return fmt::format("unit u{}x = 1 u{}x\n", i, (i + 1) % count);
    };
    return chain(count, block, "shade Quince\n    (3 u0x) soft base\n    batch trial 6 g\n");
}

Blocks ring_of_lets(int count) {
    std::string lets;
    for (int i = 0; i < count; ++i)
        lets += fmt::format("    let {{a{}}} = {{a{}}} × 1\n", i, (i + 1) % count);
    return chain(0, link_of(0), plain("{a0}", lets));
}

// ---- Deep and wide -----------------------------------------------------------------------------

Blocks layers(int deep, int wide, int shades) {
    Blocks out = materials();
    for (int i = 0; i < deep; ++i)
        for (int k = 0; k < wide; ++k) {
            std::string block = fmt::format("blend n{}q{}x\n", i, k);
            for (int j = 0; j < 3 && i + 1 < deep; ++j)
                block += fmt::format("    {} parts n{}q{}x\n", j + 2, i + 1, (k * 3 + j) % wide);
            if (i + 1 == deep) block += "    1 part copper mica\n    1 part soft base\n";
            out.push_back(block);
        }
    for (int k = 0; k < shades; ++k)
        out.push_back(fmt::format("shade s{}x\n    100 % n0q{}x\n    batch trial 6 kg\n", k, k));
    return out;
}

Blocks shades_over_blends(int shades, int deep) {
    Blocks out = chain(deep, link_of(deep));
    for (int i = 0; i < shades; ++i)
        out.push_back(fmt::format("shade s{}x\n    {} parts copper mica\n    50 parts b0x\n"
                                  "    batch trial 6 g\n",
                                  i, i % 40 + 1));
    return out;
}

Blocks families_over_likes(int families, int members) {
    Blocks out = chain(190, [](int i) {
        if (i == 0)
            return std::string("shade s0x\n    rest soft base\n    {d} copper mica\n"
                               "    let {d} = 3 %\n    batch trial 60 g\n");
        return fmt::format("shade s{}x like s{}x\n    set {{d}} copper mica\n", i, i - 1);
    });
    std::string values;
    for (int i = 0; i < members; ++i)
        values += fmt::format("{}{}/100 %", i > 0 ? ", " : "", i + 100);
    for (int i = 0; i < families; ++i)
        out.push_back(fmt::format("family F{0}x\n    from s189x\n    vary {{d}} over {1}\n"
                                  "    name F{0}x {{d}}\n",
                                  i, values));
    return out;
}

Blocks variants_over_blends(int shades) {
    constexpr int deep = 190;
    Blocks out = chain(deep, link_of(deep));
    std::string names;
    for (int i = 1; i < deep; ++i) {
        out.push_back(fmt::format("variant v{0}x\n    swap b0x for b{0}x\n", i));
        names += fmt::format("{}v{}x", i > 1 ? ", " : "", i);
    }
    out.push_back("shade s0x\n    rest soft base\n    10 % b0x\n    batch trial 60 g\n"
                  "    variants " +
                  names + "\n");
    for (int i = 1; i < shades; ++i) out.push_back(fmt::format("shade s{}x like s0x\n", i));
    return out;
}

Blocks uses_of_a_plan(int batches) {
    Blocks out = blends_deep(190);
    std::string plan = "plan Autumn\n";
    for (int i = 0; i < batches; ++i) plan += fmt::format("    make {} g of Quince\n", 600 + i);
    out.push_back(plan);
    return out;
}

Blocks additions_deep(int deep) {
    Blocks out = chain(deep, [](int i) { return fmt::format("material m{}x\n", i); });
    std::string finish = "finish glow\n    add 1/100 % m0x\n";
    for (int i = 1; i < deep; ++i)
        finish += fmt::format("    add as much m{}x as m{}x\n", i, i - 1);
    out.push_back(finish);
    out.push_back(plain("5 %", "    finishes glow\n"));
    return out;
}

// ---- Long lines --------------------------------------------------------------------------------

Blocks sum_of(int terms) {
    return chain(0, link_of(0), plain("(1 %" + repeated(" + 1/1000000 %", terms) + ")"));
}

Blocks quotient_of(int terms) {
    return chain(0, link_of(0),
                 plain("{a}", "    let {a} = (1 %" + repeated("/ppm", terms) +
                                  ")\n    step Stir in {a} of it.\n"));
}

}  // namespace levigate::testing::hostile
