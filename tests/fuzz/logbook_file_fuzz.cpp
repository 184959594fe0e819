// A whole logbook file: bytes written over a good one (offset and length before them), or a file of
// its own. It is read, checked and exported, or refused; nothing is written to it.
#include <unistd.h>

#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "book/file/error.h"
#include "book/keep/check.h"
#include "book/keep/package.h"
#include "book/read/past.h"
#include "book/read/read.h"
#include "book/write/pen.h"
#include "fuzz_site.h"

namespace {

const measure::Instant kNow{std::chrono::seconds{1800000000}};

const std::string& good_file() {
  static const std::string bytes = [] {
    const auto path = fuzz::folder() / "good.db";
    std::filesystem::remove(path);
    book::Logbook::create(path,
                          {"Tern Hollow", "America/Los_Angeles", measure::UnitSystem::kUs, 44},
                          kNow - std::chrono::hours{2000});
    {
      book::Logbook logbook(path, book::Access::kWrite);
      book::Pen pen(logbook, {"ada", "log", "log", kNow - std::chrono::hours{1000}});
      const auto heap =
          pen.start_batch({"heap-1", "pile", std::nullopt, kNow - std::chrono::hours{1000}, {}});
      for (int hour = 0; hour < 200; ++hour) {
        pen.add_reading({heap, "temperature", "core", kNow - std::chrono::hours{900 - hour},
                         40 + hour % 20 / 3.0});
      }
      pen.add_note(heap, kNow - std::chrono::hours{800}, "steam when opened");
      pen.commit();
    }
    std::ifstream file(path, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }();
  return bytes;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string bytes = good_file();
  std::size_t at = 0;
  while (at + 4 <= size) {  // offset (3 bytes), length (1 byte), bytes
    const std::size_t offset =
        (data[at] * 65536U + data[at + 1] * 256U + data[at + 2]) % bytes.size();
    const std::size_t length =
        std::min<std::size_t>({data[at + 3], size - at - 4, bytes.size() - offset});
    std::memcpy(bytes.data() + offset, data + at + 4, length);
    at += 4 + length;
    if (length == 0) break;
  }
  const auto path = fuzz::folder() / "tried.db";
  for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(path.string() + end);
  std::ofstream(path, std::ios::binary) << bytes;
  try {
    const book::Logbook logbook(path, book::Access::kRead);
    const book::Materials materials(logbook);
    for (const model::Batch& batch : book::all_batches(logbook)) {
      book::history(logbook, materials, batch, kNow);
    }
    book::movements(logbook, materials, measure::Instant{}, kNow);
    book::past(logbook, {}, 20);
    if (size % 4 != 0) return 0;  // the rest is slow
    book::check(logbook, kNow);
    std::filesystem::remove_all(fuzz::folder() / "package");
    book::write_package(logbook, fuzz::folder() / "package");
  } catch (const book::BookError&) {
  }
  return 0;
}
