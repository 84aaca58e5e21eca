/* Put before the C library (LD_PRELOAD) to let a program meet a bad day. Only files below FAULT_BELOW are touched.
 *
 *   FAULT_MODE=full      from the FAULT_AFTER-th write on, the disk is full (ENOSPC)
 *   FAULT_MODE=readonly  nothing can be opened for writing, made, renamed or removed (EROFS)
 *   FAULT_MODE=kill      at the FAULT_AFTER-th write half of its bytes are written and the program is killed (SIGKILL)
 *   FAULT_MODE=log       every change of a file goes to FAULT_LOG, for fault_tests.py to play power cuts from
 *   FAULT_CLOCK=SECONDS  the wall clock is so much ahead (or behind)
 *   FAULT_HASTE=FACTOR   the steady clock runs so much faster
 *
 * FAULT_COUNT names a file that gets the number of writes at the end.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

#define REAL(type, name, ...)                                                     \
  static type (*real)(__VA_ARGS__) = NULL;                                        \
  if (real == NULL) *(void**)(&real) = dlsym(RTLD_NEXT, name)

static int count = 0;

static const char* setting(const char* name) {
  const char* text = getenv(name);
  return text == NULL ? "" : text;
}

static int mode(const char* name) { return strcmp(setting("FAULT_MODE"), name) == 0; }

static int below(const char* path) {
  const char* folder = setting("FAULT_BELOW");
  return folder[0] != '\0' && strncmp(path, folder, strlen(folder)) == 0;
}

/* The whole path; relative ones count from the working folder. */
static const char* whole(const char* path, char* space) {
  if (path[0] == '/' || getcwd(space, PATH_MAX) == NULL) return path;
  strncat(space, "/", 2);
  strncat(space, path, PATH_MAX - 2);
  return space;
}

static int ours(const char* path) {
  char space[PATH_MAX * 2];
  return below(whole(path, space));
}

static int path_of(int file, char* path) {
  char link[64];
  snprintf(link, sizeof link, "/proc/self/fd/%d", file);
  ssize_t length = readlink(link, path, PATH_MAX - 1);
  if (length < 0) return 0;
  path[length] = '\0';
  return below(path);
}

/* One line of the log: what, path, place, length, then the bytes. */
static void note(char what, const char* path, long long place, const void* bytes, size_t length) {
  static int log = -2;
  if (log == -2) log = (int)syscall(SYS_openat, AT_FDCWD, setting("FAULT_LOG"), O_WRONLY | O_CREAT | O_APPEND, 0644);
  char head[PATH_MAX * 4 + 64];
  int n = snprintf(head, sizeof head, "%c %lld %zu %s\n", what, place, length, path);
  syscall(SYS_write, log, head, (size_t)n);
  if (length > 0) syscall(SYS_write, log, bytes, length);
}

/* What becomes of a write: 0 go on, -1 it fails with errno set. */
static int before_write(int file, const void* bytes, size_t length, long long place) {
  char path[PATH_MAX];
  if (file == 1 && mode("log")) note('A', "stdout", 0, bytes, length);
  if (!path_of(file, path)) return 0;
  ++count;
  const int after = atoi(setting("FAULT_AFTER"));
  if (mode("log")) {
    if (place < 0) place = (long long)syscall(SYS_lseek, file, 0, SEEK_CUR);
    note('W', path, place, bytes, length);
  }
  if (mode("full") && count >= after) {
    errno = ENOSPC;
    return -1;
  }
  if (mode("kill") && count == after) {
    if (place < 0) {
      syscall(SYS_write, file, bytes, length / 2);
    } else {
      syscall(SYS_pwrite64, file, bytes, length / 2, place);
    }
    raise(SIGKILL);
  }
  return 0;
}

ssize_t write(int file, const void* bytes, size_t length) {
  if (before_write(file, bytes, length, -1) != 0) return -1;
  return syscall(SYS_write, file, bytes, length);
}

ssize_t pwrite64(int file, const void* bytes, size_t length, off64_t place) {
  if (before_write(file, bytes, length, place) != 0) return -1;
  return syscall(SYS_pwrite64, file, bytes, length, place);
}

ssize_t pwrite(int file, const void* bytes, size_t length, off_t place) { return pwrite64(file, bytes, length, place); }

ssize_t writev(int file, const struct iovec* parts, int number) {
  ssize_t all = 0;
  for (int i = 0; i < number; ++i) {
    if (parts[i].iov_len == 0) continue;
    ssize_t done = write(file, parts[i].iov_base, parts[i].iov_len);
    if (done < 0) return all > 0 ? all : done;
    all += done;
  }
  return all;
}

static int sync_as(int file, long call) {
  char path[PATH_MAX];
  if (mode("log") && path_of(file, path)) note('S', path, 0, "", 0);
  return (int)syscall(call, file);
}
int fsync(int file) { return sync_as(file, SYS_fsync); }
int fdatasync(int file) { return sync_as(file, SYS_fdatasync); }

int ftruncate64(int file, off64_t length) {
  char path[PATH_MAX];
  if (mode("log") && path_of(file, path)) note('T', path, length, "", 0);
  return (int)syscall(SYS_ftruncate, file, length);
}
int ftruncate(int file, off_t length) { return ftruncate64(file, length); }

static int refused(const char* path) {
  if (!mode("readonly") || !ours(path)) return 0;
  errno = EROFS;
  return 1;
}

int access(const char* path, int how) {
  if ((how & W_OK) != 0 && refused(path)) return -1;
  return (int)syscall(SYS_faccessat, AT_FDCWD, path, how);
}

static int open_as(const char* path, int flags, mode_t rights) {
  if ((flags & (O_WRONLY | O_RDWR | O_CREAT | O_TRUNC)) != 0 && refused(path)) return -1;
  int file = (int)syscall(SYS_openat, AT_FDCWD, path, flags, rights);
  char at[PATH_MAX];
  if (file >= 0 && (flags & (O_CREAT | O_TRUNC)) != 0 && mode("log") && path_of(file, at))
    note((flags & O_TRUNC) != 0 ? 'E' : 'C', at, 0, "", 0);
  return file;
}

int open64(const char* path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t rights = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return open_as(path, flags, rights);
}

int open(const char* path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t rights = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return open_as(path, flags, rights);
}

FILE* fopen64(const char* path, const char* how) {
  REAL(FILE*, "fopen64", const char*, const char*);
  if (strpbrk(how, "wa+") != NULL && refused(path)) return NULL;
  FILE* file = real(path, how);
  char at[PATH_MAX];
  if (file != NULL && how[0] == 'w' && mode("log") && path_of(fileno(file), at)) note('E', at, 0, "", 0);
  return file;
}
FILE* fopen(const char* path, const char* how) { return fopen64(path, how); }

int mkdir(const char* path, mode_t rights) {
  if (refused(path)) return -1;
  return (int)syscall(SYS_mkdirat, AT_FDCWD, path, rights);
}

static int rename_as(const char* from, const char* to, unsigned flags) {
  if (refused(to)) return -1;
  if (flags != 0 && access(to, F_OK) == 0) {
    errno = EEXIST;
    return -1;
  }
  if (mode("log") && ours(from)) {
    char both[PATH_MAX * 4 + 2], one[PATH_MAX * 2], other[PATH_MAX * 2];
    snprintf(both, sizeof both, "%s\t%s", whole(from, one), whole(to, other));
    note('R', both, 0, "", 0);
  }
  return (int)syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, flags);
}
int rename(const char* from, const char* to) { return rename_as(from, to, 0); }
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  if (from_folder == AT_FDCWD && to_folder == AT_FDCWD) return rename_as(from, to, flags);
  return (int)syscall(SYS_renameat2, from_folder, from, to_folder, to, flags);
}

int unlink(const char* path) {
  if (refused(path)) return -1;
  char space[PATH_MAX * 2];
  if (mode("log") && ours(path)) note('U', whole(path, space), 0, "", 0);
  return (int)syscall(SYS_unlinkat, AT_FDCWD, path, 0);
}

int clock_gettime(clockid_t which, struct timespec* now) {
  const int failed = (int)syscall(SYS_clock_gettime, which, now);
  if (which == CLOCK_REALTIME) now->tv_sec += atoll(setting("FAULT_CLOCK"));
  const long long haste = atoll(setting("FAULT_HASTE"));
  if (which == CLOCK_MONOTONIC && haste > 0) {
    const long long all = (now->tv_sec * 1000000LL + now->tv_nsec / 1000) * haste;
    now->tv_sec = all / 1000000;
    now->tv_nsec = all % 1000000 * 1000;
  }
  return failed;
}

time_t time(time_t* where) {
  struct timespec now;
  clock_gettime(CLOCK_REALTIME, &now);
  if (where != NULL) *where = now.tv_sec;
  return now.tv_sec;
}

int gettimeofday(struct timeval* restrict now, void* restrict zone) {
  struct timespec at;
  (void)zone;
  clock_gettime(CLOCK_REALTIME, &at);
  now->tv_sec = at.tv_sec;
  now->tv_usec = at.tv_nsec / 1000;
  return 0;
}

__attribute__((destructor)) static void tell_count(void) {
  if (setting("FAULT_COUNT")[0] == '\0') return;
  char text[32];
  int length = snprintf(text, sizeof text, "%d\n", count);
  int file = (int)syscall(SYS_openat, AT_FDCWD, setting("FAULT_COUNT"), O_WRONLY | O_CREAT | O_TRUNC, 0644);
  syscall(SYS_write, file, text, (size_t)length);
  syscall(SYS_close, file);
}
