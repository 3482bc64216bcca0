/* confine_calls.c - what this process may ask of the system from now on: seccomp (layer: cli/confinement).
 *
 * Every call is allowed or refused by its name in system_calls.txt; one that is in neither, because the
 * kernel is younger than the list, is answered as an old kernel would.  Refused calls fail; they end
 * nothing. */
#define _DEFAULT_SOURCE /* syscall */
#include "confine.h"

#include <stddef.h>
#include <stdint.h>

#if defined(__linux__) && (defined(__x86_64__) || defined(__aarch64__) || defined(__riscv))
#include <errno.h>
#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
#define MACHINE AUDIT_ARCH_AARCH64
#else
#define MACHINE AUDIT_ARCH_RISCV64
#endif

#define THREAD         0x00010000 /* of clone(): shares everything with its maker */
#define TYPE_FOR_OTHER 0x5412     /* of ioctl(): types at the terminal (TIOCSTI) */
#define PASTE          0x541C     /* of ioctl(): the same by another way (TIOCLINUX) */
#define X32            0x40000000 /* calls of another kind of program */
#define SPEC_ALLOW     4UL        /* SECCOMP_FILTER_FLAG_SPEC_ALLOW: younger than some headers */
#define FILTER_MOST    1024
#define NUMBERS        1024 /* the kernel has not given half of them away */

enum leave { LEAVE_ABSENT, LEAVE_ALLOW, LEAVE_WRITE, LEAVE_REFUSE };

/* Made of system_calls.txt when the program is built. */
static const struct {
    short number;
    unsigned char leave;
} calls[] = {
#include <system_calls.h>
};

typedef struct filter {
    struct sock_filter at[FILTER_MOST];
    unsigned short n;
} filter;

static void add(filter *to, uint16_t code, uint32_t value, uint8_t yes, uint8_t no)
{
    if (to->n < FILTER_MOST)
        to->at[to->n++] = (struct sock_filter){code, yes, no, value};
}

static void load(filter *to, size_t place)
{
    add(to, BPF_LD | BPF_W | BPF_ABS, (uint32_t)place, 0, 0);
}

static void answer(filter *to, int error)
{
    add(to, BPF_RET | BPF_K, error ? SECCOMP_RET_ERRNO | (uint32_t)error : SECCOMP_RET_ALLOW, 0, 0);
}

/* The low half of an argument; all kinds of machine above keep it first. */
static size_t argument(int i)
{
    return offsetof(struct seccomp_data, args) + (size_t)i * sizeof(uint64_t);
}

/* With the call's number loaded: fails if it is this one. */
static void refuse(filter *to, int call, int error)
{
    add(to, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 1);
    answer(to, error);
}

/* Fails if the argument has any of these bits, or (any = false) none of them. */
static void refuse_bits(filter *to, int call, int which, uint32_t bits, bool any)
{
    add(to, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 4);
    load(to, argument(which));
    add(to, BPF_JMP | BPF_JSET | BPF_K, bits, any ? 0 : 1, any ? 1 : 0);
    answer(to, EPERM);
    answer(to, 0);
}

/* Fails if the argument is this value, or (is = false) another. */
static void refuse_value(filter *to, int call, int which, uint32_t value, bool is)
{
    add(to, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 4);
    load(to, argument(which));
    add(to, BPF_JMP | BPF_JEQ | BPF_K, value, is ? 0 : 1, is ? 1 : 0);
    answer(to, EPERM);
    load(to, offsetof(struct seccomp_data, nr));
}

static int error_of(enum leave leave, bool writes)
{
    if (leave == LEAVE_ALLOW || (leave == LEAVE_WRITE && writes))
        return 0;
    return leave == LEAVE_ABSENT ? ENOSYS : EPERM;
}

/* The list by number, runs of calls with one answer together. */
static void fill_list(filter *to, bool writes)
{
    unsigned char leaves[NUMBERS] = {LEAVE_ABSENT};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
        if (calls[i].number >= 0 && calls[i].number < NUMBERS)
            leaves[calls[i].number] = calls[i].leave;
    for (int from = 0, end; from < NUMBERS; from = end) {
        const int error = error_of((enum leave)leaves[from], writes);
        for (end = from + 1; end < NUMBERS && error_of((enum leave)leaves[end], writes) == error;)
            end++;
        add(to, BPF_JMP | BPF_JGE | BPF_K, (uint32_t)end, 1, 0);
        answer(to, error);
    }
    answer(to, ENOSYS);
}

static void fill(filter *to, bool writes)
{
    load(to, offsetof(struct seccomp_data, arch));
    add(to, BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0);
    answer(to, EPERM);
    load(to, offsetof(struct seccomp_data, nr));
    add(to, BPF_JMP | BPF_JGE | BPF_K, X32, 0, 1);
    answer(to, EPERM);
    refuse_value(to, SYS_ioctl, 1, TYPE_FOR_OTHER, true);
    refuse_value(to, SYS_ioctl, 1, PASTE, true);
    refuse_value(to, SYS_tgkill, 0, (uint32_t)getpid(), false); /* abort() signals its own process */
    if (!writes) {
        refuse(to, 437, ENOSYS); /* openat2: its flags can't be seen; libc then takes openat */
        refuse_bits(to, SYS_openat, 2, O_WRONLY | O_RDWR | O_CREAT | O_TRUNC, true);
#ifdef SYS_open
        refuse_bits(to, SYS_open, 1, O_WRONLY | O_RDWR | O_CREAT | O_TRUNC, true);
#endif
    }
    refuse_bits(to, SYS_clone, 0, THREAD, false);
    fill_list(to, writes);
}

bool confine_calls(bool writes)
{
    filter to = {.n = 0};
    fill(&to, writes);
    const struct sock_fprog program = {.len = to.n, .filter = to.at};
    if (to.n >= FILTER_MOST)
        return false;
    /* Else the kernel also slows the processor's guesses down, which guards code from a neighbour in the same
     * process that can measure nanoseconds: there is none, and it made audits two and a half times as slow.
     */
    return syscall(SYS_seccomp, SECCOMP_SET_MODE_FILTER, SPEC_ALLOW, &program) == 0 ||
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program, 0, 0) == 0;
}

#else

bool confine_calls(bool writes)
{
    (void)writes;
    return false;
}

#endif
