#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>

#include "book/keep/backup.h"
#include "measure/text.h"

namespace book {
namespace {

namespace fs = std::filesystem;

// File systems of other machines, by the names of /proc/mounts (filesystems(5), mount(8)).
bool is_remote(std::string_view type) {
  constexpr std::array<std::string_view, 11> kRemote{"nfs",   "nfs4",       "cifs",       "smb3",
                                                     "smbfs", "ncpfs",      "afs",        "coda",
                                                     "ceph",  "fuse.sshfs", "fuse.rclone"};
  return std::find(kRemote.begin(), kRemote.end(), type) != kRemote.end();
}

// The type of the mount that holds the path: the longest mount point that it lies under.
std::string mount_type(const fs::path& path) {
  std::ifstream mounts("/proc/mounts");
  std::string line, best_type;
  std::size_t best = 0;
  const std::string wanted = path.string() + "/";
  while (std::getline(mounts, line)) {
    std::istringstream words(line);
    std::string device, point, type;
    words >> device >> point >> type;
    const std::string prefix = point == "/" ? "/" : point + "/";
    if (wanted.starts_with(prefix) && prefix.size() >= best) {
      best = prefix.size();
      best_type = type;
    }
  }
  return best_type;
}

// What programs that copy folders between machines leave in a folder's root, or call it.
bool is_synced(const fs::path& folder) {
  std::error_code none;
  for (const char* mark : {".stfolder", ".dropbox", ".owncloudsync.log", ".nextcloudsync.log",
                           ".sync_journal.db", ".unison"}) {
    if (fs::exists(folder / mark, none)) return true;
  }
  const std::string name = measure::folded(folder.filename().string());
  for (const char* start : {"dropbox", "onedrive", "google drive", "nextcloud", "owncloud",
                            "icloud", "mobile documents"}) {
    if (name.starts_with(start)) return true;
  }
  return false;
}

}  // namespace

std::optional<std::string> unsafe_place(const fs::path& logbook) {
  std::error_code error;
  const fs::path folder = fs::weakly_canonical(fs::absolute(logbook).parent_path(), error);
  if (error) return std::nullopt;
  if (is_remote(mount_type(folder))) {
    return "the logbook lies on a network drive, where two writers can damage it; keep it on a "
           "local disk and its backups there";
  }
  for (fs::path one = folder; one.has_relative_path(); one = one.parent_path()) {
    if (is_synced(one)) {
      return "the logbook lies in a folder that is copied between machines (" + one.string() +
             "), which can copy it half written; keep it outside and its backups there";
    }
  }
  return std::nullopt;
}

}  // namespace book
