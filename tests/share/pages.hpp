#pragma once
// Files with secrets, made by chance: what is public comes from one seed, what is private or sealed
// from another. So two of them differ only in what members must not learn.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace levigate::testing {

struct SecretPages {
    std::map<std::string, std::string> files;  ///< `a.shade` is FILE
    std::vector<std::string> shades;           ///< for `--shade`; empty: what the file says
};

/// `near`: amounts in sealed blends are close to one another whatever the secret is, so that often
/// the same ranges are told of them.
SecretPages secret_pages(std::uint64_t open, std::uint64_t secret, bool near);

}  // namespace levigate::testing
