/* SPDX-License-Identifier: MIT */
#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>

#include "bind_study.h"

/*
 * Ctrl-C, and a polite request to end, ask a run to stop after the blocks in
 * hand.  A process has one handler of a signal, however many Lua states and
 * threads: who listens is counted, and the last one puts back what was there.
 */
static const int stops[] = { SIGINT, SIGTERM, SIGHUP };
#define STOPS (sizeof stops / sizeof stops[0])

static atomic_int caught;	/* the signal; 0: none */
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
/* behind the lock: */
static int listeners;
static int always;		/* one of them will never cease */
static struct sigaction theirs[STOPS];

static void on_stop(int signal)
{
	caught = signal;
}

int bind_interrupted(void)
{
	return caught;
}

const char *bind_interruption(void)
{
	return caught == SIGTERM ? "SIGTERM" : caught == SIGHUP ? "SIGHUP"
	     : "Ctrl-C";
}

static void install(void)
{
	struct sigaction ours = { 0 };

	ours.sa_handler = on_stop;
	caught = 0;
	for (size_t i = 0; i < STOPS; i++) {
		sigaction(stops[i], NULL, &theirs[i]);
		/* under nohup a lost terminal is nothing to heed */
		if (stops[i] != SIGHUP || theirs[i].sa_handler != SIG_IGN)
			sigaction(stops[i], &ours, NULL);
	}
}

void bind_listen(void)
{
	pthread_mutex_lock(&lock);
	if (listeners++ == 0)
		install();
	pthread_mutex_unlock(&lock);
}

void bind_cease(void)
{
	pthread_mutex_lock(&lock);
	if (--listeners == 0)
		for (size_t i = 0; i < STOPS; i++)
			sigaction(stops[i], &theirs[i], NULL);
	pthread_mutex_unlock(&lock);
}

/* study.interrupted() -> whether one came, and "Ctrl-C", "SIGTERM" or "SIGHUP";
 * from the first call on they are noted, and end the program no more */
int bind_study_interrupted(lua_State *L)
{
	pthread_mutex_lock(&lock);
	if (!always && listeners++ == 0)
		install();
	always = 1;
	pthread_mutex_unlock(&lock);
	lua_pushboolean(L, caught);
	if (!caught)
		return 1;
	lua_pushstring(L, bind_interruption());
	return 2;
}
