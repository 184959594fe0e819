#pragma once

#include <string>
#include <string_view>

// Numbers as they are said.
namespace measure {

// The number at the start of `text`, where it stands in words, written in digits; else `text`
// folded: "a bucket" is "1 bucket", "half a barrow" "1/2 barrow", "one and a half barrows" "1 1/2
// barrows", "a dozen eggs" "1 dozen eggs", "a couple of buckets" "2 buckets", "three" "3". Words
// up to twenty.
std::string with_digits(std::string_view text);

}  // namespace measure
