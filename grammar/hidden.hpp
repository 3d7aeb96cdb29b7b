#pragma once
// Signs that nobody sees: they steer a terminal, reorder what stands around them, or hide.

namespace levigate {

/// Of a code point and the one before it (0: none). Hidden are control signs, all but the tab,
/// marks of direction, line breaks that are none here, and what Unicode calls
/// Default_Ignorable_Code_Point (DerivedCoreProperties.txt). Joiners and variation selectors shape
/// the letters of some scripts, and pictures: behind such a sign they may stand.
bool hidden(char32_t sign, char32_t before);

}  // namespace levigate
