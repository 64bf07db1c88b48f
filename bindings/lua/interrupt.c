/* SPDX-License-Identifier: MIT */
#include <signal.h>

#include "bind_study.h"

/* Ctrl-C asks a run to stop after the blocks in hand. */
static volatile sig_atomic_t interrupted;

static void on_interrupt(int signal)
{
	(void)signal;
	interrupted = 1;
}

int bind_interrupted(void)
{
	return interrupted;
}

void bind_listen(struct sigaction *theirs)
{
	struct sigaction ours = { 0 };

	ours.sa_handler = on_interrupt;
	sigaction(SIGINT, NULL, theirs);
	if (theirs->sa_handler == on_interrupt)
		return;		/* what came meanwhile still counts */
	interrupted = 0;
	sigaction(SIGINT, &ours, NULL);
}

/* study.interrupted() -> whether Ctrl-C came; from the first call on it is
 * noted, and ends the program no more */
int bind_study_interrupted(lua_State *L)
{
	struct sigaction theirs;

	bind_listen(&theirs);
	lua_pushboolean(L, interrupted);
	return 1;
}
