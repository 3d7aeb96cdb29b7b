#pragma once
// The floor: the least that any program would do for the same CSV. Doubles from a ready array,
// multiplied, rounded, and written by whole numbers and copied names; no general formatting.

#include <charconv>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/compile.h>

namespace levigate::bench {

/// One row, ready: all that is left to do is to multiply, round and write.
struct Ready {
    std::string_view shade, finish, batch, bowl, ingredient;
    double share, total;
};

inline char* put(char* at, std::string_view text) {
    std::memcpy(at, text.data(), text.size());
    at += text.size();
    *at++ = ',';
    return at;
}

/// `amount` rounded to `places` places, closing zeros dropped if `trim`; then a comma.
template <int places, bool trim>
char* put_number(char* at, double amount) {
    std::int64_t scale = 1;
    for (int i = 0; i < places; ++i) scale *= 10;
    const auto steps = static_cast<std::int64_t>(amount * static_cast<double>(scale) + 0.5);
    at = std::to_chars(at, at + 20, steps / scale).ptr;
    std::int64_t rest = steps % scale;
    *at++ = '.';
    for (int i = places - 1; i >= 0; --i, rest /= 10) at[i] = static_cast<char>('0' + rest % 10);
    at += places;
    if (trim) {
        while (at[-1] == '0') --at;
        if (at[-1] == '.') --at;
    }
    *at++ = ',';
    return at;
}

/// Rows as `weigh --as csv` writes them. A double has no exact fraction: in that column stand the
/// grams to six places, which take about as many bytes. Returns the bytes.
inline std::size_t floor_program(const std::vector<Ready>& rows, const std::filesystem::path& to) {
    constexpr std::size_t drain = 1u << 18, longest_row = 1u << 12;
    std::FILE* file = std::fopen(to.c_str(), "wb");
    std::vector<char> buffer(drain + longest_row);
    char* const start = buffer.data();
    char* at = put(start, "shade,variant,finish,batch,bowl,ingredient,grams,percent,exact");
    at[-1] = '\n';
    std::size_t bytes = 0;
    const auto write = [&] {
        bytes += std::fwrite(start, 1, static_cast<std::size_t>(at - start), file);
        at = start;
    };
    for (const Ready& row : rows) {
        const double grams = row.share * row.total;
        at = put(put(at, row.shade), "");
        at = put(put(put(put(at, row.finish), row.batch), row.bowl), row.ingredient);
        at = put_number<2, false>(at, grams);
        at = put_number<4, true>(at, row.share * 100);
        at = put_number<6, true>(at, grams);
        at[-1] = '\n';
        if (static_cast<std::size_t>(at - start) >= drain) write();
    }
    write();
    std::fclose(file);
    return bytes;
}

/// The same with a library's formatting of doubles, to show how much of a floor is formatting.
inline std::size_t floor_by_fmt(const std::vector<Ready>& rows, const std::filesystem::path& to) {
    std::FILE* file = std::fopen(to.c_str(), "wb");
    fmt::memory_buffer out;
    std::size_t bytes = 0;
    const auto write = [&] {
        bytes += std::fwrite(out.data(), 1, out.size(), file);
        out.clear();
    };
    for (const Ready& row : rows) {
        const double grams = row.share * row.total;
        fmt::format_to(std::back_inserter(out),
                       FMT_COMPILE("{},,{},{},{},{},{:.2f},{:.4f},{:.6f}\n"), row.shade, row.finish,
                       row.batch, row.bowl, row.ingredient, grams, row.share * 100, grams);
        if (out.size() >= (1u << 18)) write();
    }
    write();
    std::fclose(file);
    return bytes;
}

/// The floor's rows beside the command's, as far as the column before `exact`. In a blend's bowl
/// the command may weigh a step more, so that the blend suffices; a floor knows nothing of that.
/// In a shade's own bowl a row that differs is one that doubles round wrongly.
struct Compared {
    std::size_t in_blends = 0, in_shades = 0;
    std::size_t nothing = 0;  ///< rows of the command that read 0.00
};

inline Compared compare(const std::filesystem::path& floor, const std::filesystem::path& exact) {
    Compared out;
    std::ifstream one(floor), other(exact);
    std::string a, b;
    while (true) {
        const bool more_a = !!std::getline(one, a), more_b = !!std::getline(other, b);
        if (!more_a && !more_b) return out;
        const bool own = b.find("," + b.substr(0, b.find(',') + 1), 1) != std::string::npos;
        if (more_a != more_b || a.substr(0, a.rfind(',')) != b.substr(0, b.rfind(',')))
            ++(own ? out.in_shades : out.in_blends);
        if (more_b && b.find(",0.00,") != std::string::npos) ++out.nothing;
    }
}

}  // namespace levigate::bench
