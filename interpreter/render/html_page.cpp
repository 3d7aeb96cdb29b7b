#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <nettle/base64.h>
#include <nettle/sha2.h>

#include "interpreter/embedded.hpp"
#include "interpreter/render/html.hpp"

namespace levigate {
namespace {

using Digest = std::array<std::uint8_t, SHA256_DIGEST_SIZE>;

Digest sha256(std::string_view bytes) {
    sha256_ctx context;
    sha256_init(&context);
    sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
    Digest digest;
    sha256_digest(&context, digest.size(), digest.data());
    return digest;
}

/// 'sha256-…' as a policy names what it lets run.
std::string hash_source(std::string_view bytes) {
    const Digest digest = sha256(bytes);
    std::string encoded(BASE64_ENCODE_RAW_LENGTH(digest.size()), '\0');
    base64_encode_raw(encoded.data(), digest.size(), digest.data());
    return fmt::format("'sha256-{}'", encoded);
}

/// Sixteen hexadecimal digits are enough to tell one page from another.
std::string page_key(std::string_view body) {
    const Digest digest = sha256(body);
    return fmt::format("{:02x}", fmt::join(digest.begin(), digest.begin() + 8, ""));
}

std::string_view part(std::string_view name) {
    const auto parts = page_parts();
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&](const EmbeddedPage& one) { return one.name == name; });
    return found == parts.end() ? std::string_view() : found->text;
}

}  // namespace

std::string html_page(const HtmlPage& page) {
    const std::string_view style = part("page.css");
    const std::string_view script = page.ticks ? part("ticks.js") : std::string_view();
    std::string policy =
        "default-src 'none'; base-uri 'none'; form-action 'none'; style-src " + hash_source(style);
    if (page.ticks) policy += "; script-src " + hash_source(script);
    std::string out = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
    out += fmt::format("<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n", policy);
    out += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
           "<meta name=\"referrer\" content=\"no-referrer\">\n"
           "<meta name=\"color-scheme\" content=\"light dark\">\n";
    out += fmt::format("<title>{}</title>\n<style>{}</style>\n</head>\n", html_escaped(page.title),
                       style);
    out += fmt::format("<body data-key=\"{}\">\n", page_key(page.body));
    out += page.body;
    if (page.ticks) out += fmt::format("<script>{}</script>\n", script);
    out += "</body>\n</html>\n";
    return out;
}

}  // namespace levigate
