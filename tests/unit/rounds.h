// How often a test that draws by chance repeats itself.
#pragma once

// Under the sanitizers (clang's) a round costs ten times as much: there a few must do.
constexpr unsigned rounds([[maybe_unused]] unsigned usual, [[maybe_unused]] unsigned sanitized) {
#ifdef __has_feature
#if __has_feature(address_sanitizer)
  return sanitized;
#endif
#endif
  return usual;
}
