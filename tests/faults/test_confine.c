/* The walls around a confined process: what it may still do, and what it may no more.
 *
 * Each case is a child that puts the walls up and knocks at one.  Where the system has no such wall
 * the case is skipped, and says so. */
#include "rule_folder.h"

#include "confine.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>

enum { YES = 10, NO = 11, OTHER = 12, NO_WALL = 13 };

static char own[300]; /* the test's folder: rules/ house/ sheet.csv other.csv */

/* What came of a call: it worked, it was refused, or neither. */
static int answer(long result)
{
    if (result >= 0)
        return YES;
    return errno == EPERM || errno == EACCES || errno == ENOSYS ? NO : OTHER;
}

static const char *place(const char *name)
{
    static char path[400];
    snprintf(path, sizeof path, "%s/%s", own, name);
    return path;
}

static int open_read(const char *name)
{
    return answer(open(place(name), O_RDONLY));
}

static int open_write(const char *name)
{
    return answer(open(place(name), O_WRONLY | O_CREAT, 0600));
}

static int read_sheet(void)
{
    return open_read("sheet.csv");
}
static int read_book(void)
{
    return open_read("rules/tiny.lua");
}
static int read_beside_book(void)
{
    return open_read("house/beside.lua");
}
static int read_other(void)
{
    return open_read("other.csv");
}
static int read_folder(void)
{
    return answer(open("/", O_RDONLY | O_DIRECTORY));
}
static int read_passwords(void)
{
    return answer(open("/etc/passwd", O_RDONLY));
}
static int write_sheet(void)
{
    return open_write("sheet.csv");
}
static int write_new(void)
{
    return open_write("rules/new.lua");
}
static int write_output(void)
{
    return open_write("out/new.html");
}
static int rename_output(void)
{
    const int file = open(place("out/draft"), O_WRONLY | O_CREAT | O_EXCL, 0600);
    char draft[400];
    snprintf(draft, sizeof draft, "%s", place("out/draft"));
    return file < 0 ? answer(file) : answer(rename(draft, place("out/whole")));
}
static int remove_sheet(void)
{
    return answer(unlink(place("sheet.csv")));
}
static int rename_book(void)
{
    char from[400];
    snprintf(from, sizeof from, "%s", place("rules/tiny.lua"));
    return answer(rename(from, place("rules/gone.lua")));
}
static int make_socket(void)
{
    return answer(socket(AF_INET, SOCK_STREAM, 0));
}
static int make_pair(void)
{
    int ends[2];
    return answer(socketpair(AF_UNIX, SOCK_STREAM, 0, ends));
}
static int run_program(void)
{
    char name[] = "/bin/true", *const words[] = {name, NULL};
    return answer(execv(name, words));
}
static int make_process(void)
{
    const pid_t child = fork();
    if (child == 0)
        _exit(0);
    return answer(child);
}
static int run_shell(void)
{
    const int status = system("exit 0"); /* -1: no process could be made */
    return status == 0 ? YES : NO;
}
static int signal_parent(void)
{
    return answer(kill(getppid(), SIGCONT));
}

static void *do_nothing(void *unused)
{
    return unused;
}
static int make_thread(void)
{
    pthread_t thread;
    return pthread_create(&thread, NULL, do_nothing, NULL) == 0 && pthread_join(thread, NULL) == 0 ? YES : NO;
}
static int write_down(void)
{
    return answer(write(STDERR_FILENO, "", 0));
}
static int take_memory(void)
{
    char *room = malloc((size_t)8 << 20);
    const int result = room ? YES : NO;
    free(room);
    return result;
}
static int tell_time_limit(void)
{
    struct rlimit limit;
    return getrlimit(RLIMIT_CPU, &limit) == 0 && limit.rlim_cur != RLIM_INFINITY ? NO : YES;
}

enum { NEVER, FILES, CALLS, TIME }; /* which wall refuses it */

static const struct {
    const char *what;
    int (*knock)(void);
    int wall;
    int writes; /* the command writes out/new.html */
} cases[] = {
    {"reads the sheet", read_sheet, NEVER, 0},
    {"reads a book", read_book, NEVER, 0},
    {"reads beside a book that a word names", read_beside_book, NEVER, 0},
    {"writes what it has open", write_down, NEVER, 0},
    {"starts a thread", make_thread, NEVER, 0},
    {"takes memory", take_memory, NEVER, 0},
    {"writes its output", write_output, NEVER, 1},
    {"gives its output a name", rename_output, NEVER, 1},
    {"reads another file", read_other, FILES, 0},
    {"reads a folder", read_folder, FILES, 0},
    {"reads the system's files", read_passwords, FILES, 0},
    {"writes the sheet, while it may write elsewhere", write_sheet, FILES, 1},
    {"writes a rule file, while it may write elsewhere", write_new, FILES, 1},
    {"removes the sheet, while it may write elsewhere", remove_sheet, FILES, 1},
    {"writes an output that nobody asked for", write_output, CALLS, 0},
    {"writes the sheet", write_sheet, CALLS, 0},
    {"removes the sheet", remove_sheet, CALLS, 0},
    {"renames a book", rename_book, CALLS, 0},
    {"opens a connection", make_socket, CALLS, 0},
    {"opens a pair of sockets", make_pair, CALLS, 0},
    {"runs a program", run_program, CALLS, 0},
    {"makes a process", make_process, CALLS, 0},
    {"runs a shell", run_shell, CALLS, 0},
    {"signals another process", signal_parent, CALLS, 0},
    {"works without end", tell_time_limit, TIME, 0},
};

static int stand_in_walls(size_t i)
{
    char folder[400], sheet[400], book[400], output[400];
    snprintf(folder, sizeof folder, "%s/rules", own);
    snprintf(sheet, sizeof sheet, "%s/sheet.csv", own);
    snprintf(book, sizeof book, "%s/house/shop.lua", own);
    snprintf(output, sizeof output, "%s/out/new.html", own);
    char *words[] = {sheet};
    const request asked = {
        .words = words, .n_words = 1, .book = book, .output = cases[i].writes ? output : NULL};
    bookshelf shelf = {.folders = {folder}};
    shelf.shelf = (hl_shelf){.folders = shelf.folders, .n_folders = 1};
    const walls up = confine(&asked, &shelf);
    const bool there = cases[i].wall == NEVER   ? true
                       : cases[i].wall == FILES ? up.files > 0 && up.reads
                       : cases[i].wall == CALLS ? up.calls
                                                : up.time;
    return there ? cases[i].knock() : NO_WALL;
}

static void write_file(const char *name)
{
    FILE *file = fopen(place(name), "w");
    assert_non_null(file);
    fclose(file);
}

static void make_place(void)
{
    static const char *const folders[] = {"rules", "house", "out"};
    static const char *const files[] = {"sheet.csv", "other.csv", "rules/tiny.lua", "house/shop.lua",
                                        "house/beside.lua"};
    snprintf(own, sizeof own, "%s/walls-XXXXXX", getenv("TMPDIR") ? getenv("TMPDIR") : "/tmp");
    assert_non_null(mkdtemp(own));
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++)
        assert_int_equal(mkdir(place(folders[i]), 0700), 0);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++)
        write_file(files[i]);
}

static void take_place_away(void)
{
    static const char *const names[] = {"sheet.csv",
                                        "other.csv",
                                        "rules/tiny.lua",
                                        "house/shop.lua",
                                        "house/beside.lua",
                                        "out/new.html",
                                        "out/draft",
                                        "out/whole",
                                        "rules/new.lua",
                                        "rules/gone.lua",
                                        "rules",
                                        "house",
                                        "out",
                                        ""};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        remove(place(names[i]));
}

static void test_the_walls(void **state)
{
    (void)state;
    bool bad = false;
    int n_skipped = 0;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        make_place();
        int status = 0;
        const pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0)
            _exit(stand_in_walls(i));
        assert_int_equal(waitpid(child, &status, 0), child);
        take_place_away();
        const int result = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        const int wanted = cases[i].wall == NEVER ? YES : NO;
        if (result == NO_WALL)
            n_skipped++;
        else if (result != wanted)
            print_error("a confined process %s: %s, not %s (status %x)\n", cases[i].what,
                        result == YES  ? "it can"
                        : result == NO ? "it is refused"
                                       : "something else went wrong",
                        wanted == YES ? "it can" : "it is refused", (unsigned)status);
        bad = bad || (result != NO_WALL && result != wanted);
    }
    if (n_skipped > 0)
        print_message("SKIP %d of the cases: this system, or this build, has no such wall\n", n_skipped);
    assert_false(bad);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_the_walls)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
