#include "interpreter/measure/iso4217.hpp"

#include <algorithm>
#include <array>

namespace levigate {
namespace {

// Source: ISO 4217 as remembered (memory), then compared with Debian's iso-codes 4.15.0 of 2023: it
// lacks XCG and ZWG, which are later (memory), and still has ANG, CUC, HRK, SLL and ZWL, which are
// withdrawn (memory). Only what one can pay with: no precious metals, funds or codes for tests. BGN
// stays for older prices. In order, for the search.
constexpr std::string_view codes[] = {
    "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN",
    "BHD", "BIF", "BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF",
    "CHF", "CLP", "CNY", "COP", "CRC", "CUP", "CVE", "CZK", "DJF", "DKK", "DOP", "DZD", "EGP",
    "ERN", "ETB", "EUR", "FJD", "FKP", "GBP", "GEL", "GHS", "GIP", "GMD", "GNF", "GTQ", "GYD",
    "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IQD", "IRR", "ISK", "JMD", "JOD", "JPY",
    "KES", "KGS", "KHR", "KMF", "KPW", "KRW", "KWD", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD",
    "LSL", "LYD", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK",
    "MXN", "MYR", "MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD", "OMR", "PAB", "PEN", "PGK",
    "PHP", "PKR", "PLN", "PYG", "QAR", "RON", "RSD", "RUB", "RWF", "SAR", "SBD", "SCR", "SDG",
    "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB", "TJS",
    "TMT", "TND", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "UGX", "USD", "UYU", "UZS", "VED",
    "VES", "VND", "VUV", "WST", "XAF", "XCD", "XCG", "XOF", "XPF", "YER", "ZAR", "ZMW", "ZWG",
};

// Minor units that are not hundredths. Source: ISO 4217 as remembered (memory); of these, glibc's
// locales (Debian 12, int_frac_digits) have the same for BHD, IQD, JOD, KWD, LYD, OMR and TND, and
// for ISK, JPY, KRW and VND. For others they go by what is usual in a country.
constexpr std::string_view whole_only[] = {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW",
                                           "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
constexpr std::string_view thousandths[] = {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};

template <typename List>
bool holds(const List& list, std::string_view code) {
    return std::find(std::begin(list), std::end(list), code) != std::end(list);
}

}  // namespace

std::uint32_t currency_tag(std::string_view code) {
    if (code.size() != 3) return 0;
    std::array<char, 3> capitals{};
    std::transform(code.begin(), code.end(), capitals.begin(), [](char c) {
        return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    });
    std::string_view wanted(capitals.data(), capitals.size());
    auto at = std::lower_bound(std::begin(codes), std::end(codes), wanted);
    if (at == std::end(codes) || *at != wanted) return 0;
    return static_cast<std::uint32_t>(at - std::begin(codes)) + 1;
}

std::string_view currency_code(std::uint32_t tag) {
    return tag == 0 || tag > std::size(codes) ? std::string_view() : codes[tag - 1];
}

int currency_places(std::uint32_t tag) {
    const std::string_view code = currency_code(tag);
    if (holds(whole_only, code)) return 0;
    return holds(thousandths, code) ? 3 : 2;
}

}  // namespace levigate
