// fmt's own functions, which Debian has only as a shared library: compiled here, they are part of
// the program, and its start need not look for them.
#include <fmt/format-inl.h>

FMT_BEGIN_NAMESPACE
namespace detail {
template char decimal_point_impl(locale_ref);
template thousands_sep_result<char> thousands_sep_impl(locale_ref);
}  // namespace detail
FMT_END_NAMESPACE
