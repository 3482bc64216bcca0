/* confine.c - walls around the process, in words too (layer: cli/confinement). */
#define _DEFAULT_SOURCE
#include "confine.h"

#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif

/* A sheet takes some milliseconds; this is there for what never ends. */
#define SECONDS_A_SHEET 600

static bool is_folder(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

static bool limit_time(rlim_t seconds)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_CPU, &limit) != 0)
        return false;
    if (limit.rlim_cur != RLIM_INFINITY && limit.rlim_cur <= seconds)
        return true; /* stricter already */
    limit.rlim_cur = limit.rlim_max == RLIM_INFINITY || seconds < limit.rlim_max ? seconds : limit.rlim_max;
    return setrlimit(RLIMIT_CPU, &limit) == 0;
}

static bool drop_privileges(void)
{
#if defined(__linux__) && defined(PR_SET_NO_NEW_PRIVS)
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0;
#else
    return false;
#endif
}

walls confine(const request *asked, const bookshelf *shelf)
{
    walls up = {.files = 0};
#ifndef HAMMERLINE_NO_WALLS
    open_paths open = {.words = asked->words, .n_words = asked->n_words, .writable = asked->output};
    for (int i = 0; i < shelf->shelf.n_folders; i++)
        open.readable[open.n_readable++] = shelf->shelf.folders[i];
    if (asked->book)
        open.readable[open.n_readable++] = asked->book;
    open.readable[open.n_readable++] = "/sys/devices/system/cpu"; /* how many cores there are */
    for (int i = 0; i < asked->n_words; i++)
        open.read_all = open.read_all || is_folder(asked->words[i]);
    tzset(); /* the local day needs no file from here on */
    up.time = !open.read_all && limit_time((rlim_t)SECONDS_A_SHEET * (rlim_t)(asked->n_words + 1));
    up.privileges = drop_privileges();
    if (up.privileges)
        up.files = confine_files(&open, &up.reads);
    if (up.privileges)
        up.calls = confine_calls(asked->output != NULL);
#else
    (void)asked, (void)shelf, (void)limit_time, (void)drop_privileges, (void)is_folder;
#endif
    return up;
}

static void say_wall(const char *what, bool up, const char *how)
{
    say("  %-22s %s\n", what, up ? how : "no wall here");
}

void say_walls(void)
{
    const request nothing = {.n_words = 0};
    const bookshelf none = {.n_own = 0};
    const walls up = confine(&nothing, &none);
    const int folder = open("/", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const bool reads = up.reads && folder < 0 && errno == EACCES;
    const int line = socket(AF_UNIX, SOCK_STREAM, 0);
    const bool calls = up.calls && line < 0 && errno == EPERM;
    say("Walls around rule files and sheets, beside Lua's own:\n");
    if (up.files > 0 && reads)
        say("  %-22s Landlock %d: reading only, and only sheets and rule folders\n", "files", up.files);
    else
        say_wall("files", false, "");
    say_wall("other programs", calls, "seccomp: none can be started");
    say_wall("network", calls, "seccomp: no connection can be made");
    say_wall("privileges", up.privileges, "none can be gained");
    say_wall("time", up.time, "limited");
    if (folder >= 0)
        close(folder);
    if (line >= 0)
        close(line);
}
