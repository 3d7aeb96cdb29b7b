#pragma once
// What every verb does with its findings, its document and its exit status.

#include <string>
#include <string_view>
#include <vector>

#include "interpreter/cli/output.hpp"
#include "interpreter/cli/verb.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/document.hpp"
#include "interpreter/render/findings.hpp"

namespace levigate::cli {

/// From `--brief` and `--colour`, the terminal, NO_COLOR and TERM.
FindingStyle finding_style(const Arguments& arguments);

/// Keeps what was compiled until the process ends, and then leaves it to the system: to take a
/// catalogue's tables apart one by one would be time that nobody gains from.
Compiled& kept(Compiled compiled);

/// FILE can't be read: the finding that says why.
Finding unreadable(const std::string& file, Unreadable why);

/// Ends a verb that came to nothing: the finding on standard error, or in the verb's JSON object.
/// Returns `status`, or `file_trouble` if not even that could be written.
int stop(const Verb& verb, const Arguments& arguments, int status, const Sources& sources,
         const Findings& findings);
int stop(const Verb& verb, const Arguments& arguments, int status, Code code, std::string message);

/// Appends as the `--as` that was chosen says. `isolates`: those of the sources it tells of.
void append_document(const Arguments& arguments, std::string& out,
                     const document::Document& document, const Isolates& isolates = {});

/// The regions of `--market`, with commas between them; none where it was not given.
std::vector<std::string> regions(const Arguments& arguments);
std::vector<Called> markets(const Arguments& arguments, Names& names);
/// Why what stands behind `--market` can't be followed; empty where it can.
std::string wrong_markets(const Arguments& arguments);

/// The files that were read, as paths: not to be written over.
std::vector<std::string> files_read(const Compiled& compiled);

/// Findings go to standard error, the rest of the results to their place. The exit status.
/// Where an error left nothing to show (`made` is false), no file is written, JSON aside, which
/// tells the findings: what an earlier run put there is worth more.
int finish(const Arguments& arguments, Output& output, std::string& results, const Sources& sources,
           const Findings& findings, bool made = true);

}  // namespace levigate::cli
