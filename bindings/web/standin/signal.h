/* SPDX-License-Identifier: MIT
 * Nobody sends signals to a program in a browser. */
#ifndef WEB_SIGNAL_H
#define WEB_SIGNAL_H

typedef int sig_atomic_t;
typedef unsigned sigset_t;

struct sigaction {
	void (*sa_handler)(int);
};

#define SIG_IGN ((void (*)(int))1)
#define SIGINT 2
#define SIGTERM 15
#define SIGHUP 1
#define SIG_BLOCK 0
#define SIG_SETMASK 2

static inline int sigaction(int number, const struct sigaction *to,
			    struct sigaction *was)
{
	(void)number;
	(void)to;
	if (was)
		was->sa_handler = 0;
	return 0;
}

static inline int sigemptyset(sigset_t *set)
{
	*set = 0;
	return 0;
}

static inline int sigaddset(sigset_t *set, int number)
{
	(void)number;
	(void)set;
	return 0;
}

static inline int sigprocmask(int how, const sigset_t *to, sigset_t *was)
{
	(void)how;
	(void)to;
	(void)was;
	return 0;
}

#endif
