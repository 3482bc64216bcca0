/* streams.c - closed standard streams (layer: cli).
 *
 * A file takes the lowest number that is free.  With standard output closed that is 1: the walk would
 * print its questions into the sheet. */
#include "streams.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

bool hold_streams(void)
{
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) != -1 || errno != EBADF)
            continue;
        /* The wrong way round: it is to fail as the closed one would. */
        const int way = stream == STDIN_FILENO ? O_WRONLY : O_RDONLY;
        if (open("/dev/null", way) != stream)
            return false;
    }
    return true;
}
