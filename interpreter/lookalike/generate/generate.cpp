// Writes the tables behind lookalike.cpp, once, while levigate is built: which signs look like
// which (UTS 39, confusables), and which script each letter is of, as ICU knows them. The command
// carries the tables and starts without ICU, whose loading would take a third as long as a whole
// run.
#define U_SHOW_CPLUSPLUS_API 0
#include <unicode/uchar.h>
#include <unicode/unorm2.h>
#include <unicode/uscript.h>
#include <unicode/uspoof.h>
#include <unicode/ustring.h>
#include <unicode/uversion.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

namespace {

constexpr UChar32 past_last = 0x110000;

void need(UErrorCode error, const char* what) {
    if (U_SUCCESS(error)) return;
    std::fprintf(stderr, "ICU can't tell %s: %s\n", what, u_errorName(error));
    std::exit(1);
}

std::string utf8(UChar32 sign) {
    char out[8];
    int32_t length = 0;
    U8_APPEND_UNSAFE(out, length, sign);
    return std::string(out, static_cast<std::size_t>(length));
}

bool is_sign(UChar32 sign) { return !U_IS_SURROGATE(sign) && u_isdefined(sign); }

bool is_apart(const UNormalizer2* apart, UChar32 sign) {
    UChar units[32];
    UErrorCode error = U_ZERO_ERROR;
    return unorm2_getDecomposition(apart, sign, units, 32, &error) >= 0;
}

/// What stands for a sign in a skeleton; empty where it stands for itself.
std::string prototype(const USpoofChecker* checker, const std::string& sign) {
    char out[256];
    UErrorCode error = U_ZERO_ERROR;
    const int32_t length = uspoof_getSkeletonUTF8(
        checker, 0, sign.data(), static_cast<int32_t>(sign.size()), out, sizeof out, &error);
    need(error, "a skeleton");
    std::string skeleton(out, static_cast<std::size_t>(length));
    return skeleton == sign ? std::string() : skeleton;
}

void write_text(const std::string& text) {
    std::printf("    \"");
    for (const char byte : text) std::printf("\\x%02x", static_cast<unsigned char>(byte));
    std::printf("\"\n");
}

// Signs that fall apart into others are left out: a skeleton is made of the parts.
void write_lookalikes() {
    UErrorCode error = U_ZERO_ERROR;
    USpoofChecker* checker = uspoof_open(&error);
    const UNormalizer2* apart = unorm2_getNFDInstance(&error);
    need(error, "which signs look alike");
    std::vector<std::string> texts;
    std::size_t count = 0, offset = 0;
    std::printf("static constexpr Lookalike table[] = {\n");
    for (UChar32 sign = 0; sign < past_last; ++sign) {
        if (!is_sign(sign) || is_apart(apart, sign)) continue;
        const std::string stands = prototype(checker, utf8(sign));
        if (stands.empty()) continue;
        std::printf("    {0x%X, %zu, %zu},\n", static_cast<unsigned>(sign), offset, stands.size());
        offset += stands.size();
        texts.push_back(stands);
        ++count;
    }
    std::printf("};\nstatic constexpr char texts[] =\n");
    for (const std::string& text : texts) write_text(text);
    std::printf("    ;\n");
    uspoof_close(checker);
}

/// Letters and what is put on them; the rest belongs to no script that matters.
UScriptCode script(UChar32 sign) {
    UErrorCode error = U_ZERO_ERROR;
    const UScriptCode code = u_isalpha(sign) ? uscript_getScript(sign, &error) : USCRIPT_COMMON;
    need(error, "a script");
    return code == USCRIPT_INHERITED || code == USCRIPT_UNKNOWN ? USCRIPT_COMMON : code;
}

void write_scripts() {
    std::map<UScriptCode, std::size_t> numbers;
    std::printf("static constexpr ScriptRange ranges[] = {\n");
    for (UChar32 first = 0, next = 0; first < past_last; first = next) {
        const UScriptCode code = script(first);
        while (next < past_last && script(next) == code) ++next;
        if (code == USCRIPT_COMMON) continue;
        const std::size_t number = numbers.emplace(code, numbers.size()).first->second;
        std::printf("    {0x%X, 0x%X, %zu},\n", static_cast<unsigned>(first),
                    static_cast<unsigned>(next - 1), number);
    }
    std::vector<const char*> names(numbers.size());
    for (const auto& [code, number] : numbers) names[number] = uscript_getName(code);
    std::printf("};\nstatic constexpr std::string_view names[] = {\n");
    for (const char* name : names) std::printf("    \"%s\",\n", name);
    std::printf("};\n");
}

}  // namespace

// levigate_lookalikes FILE
int main(int count, char** words) {
    if (count != 2 || !std::freopen(words[1], "w", stdout)) return 2;
    std::printf(
        "// Written by interpreter/lookalike/generate while it was built: don't edit.\n"
        "// Unicode %s, by ICU %s.\n"
        "#include \"interpreter/lookalike/tables.hpp\"\n\nnamespace levigate::lookalike {\n",
        U_UNICODE_VERSION, U_ICU_VERSION);
    write_lookalikes();
    write_scripts();
    std::printf("std::span<const Lookalike> lookalikes() { return table; }\n"
                "std::string_view prototypes() { return {texts, sizeof texts - 1}; }\n"
                "std::span<const ScriptRange> scripts() { return ranges; }\n"
                "std::span<const std::string_view> script_names() { return names; }\n"
                "}  // namespace levigate::lookalike\n");
    return std::fclose(stdout) == 0 ? 0 : 1;
}
