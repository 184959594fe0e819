/* Preloaded before the program: its FAIL_AT-th write to the disk (write, writev, pwrite, fsync,
 * fdatasync, ftruncate) fails with FAIL_WITH ("EIO", "ENOSPC"), and with FAIL_ON every later one too. Where COUNT_TO
 * names a file, the number of such calls is written there at the end. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

static long calls = 0;

static int is_disk(int handle) {
  struct stat status;
  return fstat(handle, &status) == 0 && (S_ISREG(status.st_mode) || S_ISDIR(status.st_mode));
}

static int fails(int handle) {
  const char* at = getenv("FAIL_AT");
  if (!is_disk(handle)) return 0;
  ++calls;
  if (at == NULL) return 0;
  const long n = atol(at);
  if (calls != n && !(getenv("FAIL_ON") != NULL && calls > n)) return 0;
  const char* with = getenv("FAIL_WITH");
  errno = with != NULL && strcmp(with, "ENOSPC") == 0 ? ENOSPC : EIO;
  return 1;
}

__attribute__((destructor)) static void tell(void) {
  const char* path = getenv("COUNT_TO");
  if (path == NULL) return;
  FILE* file = fopen(path, "w");
  if (file == NULL) return;
  const long counted = calls;
  fprintf(file, "%ld\n", counted);
  fclose(file);
}

#define REAL(name, type) \
  static type real;      \
  if (real == NULL) real = (type)dlsym(RTLD_NEXT, name)

ssize_t write(int handle, const void* data, size_t size) {
  typedef ssize_t (*Function)(int, const void*, size_t);
  REAL("write", Function);
  return fails(handle) ? -1 : real(handle, data, size);
}
ssize_t writev(int handle, const struct iovec* parts, int count) {
  typedef ssize_t (*Function)(int, const struct iovec*, int);
  REAL("writev", Function);
  return fails(handle) ? -1 : real(handle, parts, count);
}
ssize_t pwrite(int handle, const void* data, size_t size, off_t at) {
  typedef ssize_t (*Function)(int, const void*, size_t, off_t);
  REAL("pwrite", Function);
  return fails(handle) ? -1 : real(handle, data, size, at);
}
ssize_t pwrite64(int handle, const void* data, size_t size, off64_t at) {
  typedef ssize_t (*Function)(int, const void*, size_t, off64_t);
  REAL("pwrite64", Function);
  return fails(handle) ? -1 : real(handle, data, size, at);
}
int fsync(int handle) {
  typedef int (*Function)(int);
  REAL("fsync", Function);
  return fails(handle) ? -1 : real(handle);
}
int fdatasync(int handle) {
  typedef int (*Function)(int);
  REAL("fdatasync", Function);
  return fails(handle) ? -1 : real(handle);
}
int ftruncate(int handle, off_t size) {
  typedef int (*Function)(int, off_t);
  REAL("ftruncate", Function);
  return fails(handle) ? -1 : real(handle, size);
}
int ftruncate64(int handle, off64_t size) {
  typedef int (*Function)(int, off64_t);
  REAL("ftruncate64", Function);
  return fails(handle) ? -1 : real(handle, size);
}
