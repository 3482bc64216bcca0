/* confine_calls.c - what this process may ask of the system from now on: seccomp (layer: cli/confinement).
 *
 * A list of what is refused, not of what is allowed: libc may use calls that nobody foresaw, and a
 * refusal must not come as a surprise to an honest run.  Refused calls fail; they end nothing. */
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
#define FILTER_MOST    256

typedef struct filter {
    struct sock_filter at[FILTER_MOST];
    unsigned short n;
} filter;

/* Always refused: other programs and processes, the network, the machine itself. */
static const int refused[] = {
    SYS_execve,
    SYS_execveat,
    SYS_socket,
    SYS_socketpair,
    SYS_connect,
    SYS_bind,
    SYS_listen,
    SYS_accept,
    SYS_accept4,
    SYS_sendto,
    SYS_sendmsg,
    SYS_ptrace,
    SYS_process_vm_readv,
    SYS_process_vm_writev,
    SYS_kill,
    SYS_unshare,
    SYS_setns,
    SYS_mount,
    SYS_umount2,
    SYS_chroot,
    SYS_pivot_root,
    SYS_bpf,
    SYS_perf_event_open,
    SYS_userfaultfd,
    SYS_keyctl,
    SYS_add_key,
    SYS_request_key,
    SYS_init_module,
    SYS_finit_module,
    SYS_delete_module,
    SYS_kexec_load,
    SYS_reboot,
    SYS_swapon,
    SYS_swapoff,
    SYS_settimeofday,
    SYS_clock_settime,
    SYS_open_by_handle_at,
    SYS_memfd_create,
    SYS_shmget,
    SYS_mq_open,
    425 /* io_uring_setup: asks past this list */,
    434 /* pidfd_open */,
    438 /* pidfd_getfd */,
#ifdef SYS_fork
    SYS_fork,
#endif
#ifdef SYS_vfork
    SYS_vfork,
#endif
};

/* Refused to a command that only prints. */
static const int writing[] = {
    SYS_unlinkat, SYS_linkat,    SYS_symlinkat, SYS_mkdirat, SYS_mknodat, SYS_fchmodat,  SYS_fchownat,
    SYS_truncate, SYS_utimensat, SYS_setxattr,  SYS_fchown,  SYS_fchmod,  SYS_renameat2,
#ifdef SYS_renameat
    SYS_renameat,
#endif
#ifdef SYS_unlink
    SYS_unlink,   SYS_link,      SYS_symlink,   SYS_mkdir,   SYS_rmdir,   SYS_mknod,     SYS_chmod,
    SYS_chown,    SYS_lchown,    SYS_rename,    SYS_creat,   SYS_utime,   SYS_utimes,
#endif
};

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

/* The low half of an argument; both kinds of machine above keep it first. */
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

static void refuse_value(filter *to, int call, int which, uint32_t value)
{
    add(to, BPF_JMP | BPF_JEQ | BPF_K, (uint32_t)call, 0, 4);
    load(to, argument(which));
    add(to, BPF_JMP | BPF_JEQ | BPF_K, value, 0, 1);
    answer(to, EPERM);
    load(to, offsetof(struct seccomp_data, nr));
}

static void fill(filter *to, bool writes)
{
    load(to, offsetof(struct seccomp_data, arch));
    add(to, BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0);
    answer(to, EPERM);
    load(to, offsetof(struct seccomp_data, nr));
    add(to, BPF_JMP | BPF_JGE | BPF_K, X32, 0, 1);
    answer(to, EPERM);
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        refuse(to, refused[i], EPERM);
    refuse(to, 435, ENOSYS); /* clone3: its flags can't be seen; libc then takes clone */
    refuse_value(to, SYS_ioctl, 1, TYPE_FOR_OTHER);
    refuse_value(to, SYS_ioctl, 1, PASTE);
    if (!writes) {
        for (size_t i = 0; i < sizeof writing / sizeof *writing; i++)
            refuse(to, writing[i], EPERM);
        refuse(to, 437, ENOSYS); /* openat2: its flags can't be seen either */
        refuse_bits(to, SYS_openat, 2, O_WRONLY | O_RDWR | O_CREAT | O_TRUNC, true);
#ifdef SYS_open
        refuse_bits(to, SYS_open, 1, O_WRONLY | O_RDWR | O_CREAT | O_TRUNC, true);
#endif
    }
    refuse_bits(to, SYS_clone, 0, THREAD, false);
    answer(to, 0);
}

bool confine_calls(bool writes)
{
    filter calls = {.n = 0};
    fill(&calls, writes);
    const struct sock_fprog program = {.len = calls.n, .filter = calls.at};
    if (calls.n >= FILTER_MOST)
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
