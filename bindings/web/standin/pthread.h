/* SPDX-License-Identifier: MIT
 * One thread: another cannot be started, and the caller works alone. */
#ifndef WEB_PTHREAD_H
#define WEB_PTHREAD_H

#include <errno.h>
#include <stddef.h>

typedef int pthread_t;
typedef int pthread_mutex_t;
#define PTHREAD_MUTEX_INITIALIZER 0

static inline int pthread_create(pthread_t *thread, const void *attributes,
				 void *(*work)(void *), void *argument)
{
	(void)thread;
	(void)attributes;
	(void)work;
	(void)argument;
	return EAGAIN;
}

static inline int pthread_join(pthread_t thread, void **result)
{
	(void)thread;
	(void)result;
	return 0;
}

static inline int pthread_mutex_init(pthread_mutex_t *lock, const void *how)
{
	(void)how;
	*lock = 0;
	return 0;
}

static inline int pthread_mutex_lock(pthread_mutex_t *lock)
{
	(void)lock;
	return 0;
}

static inline int pthread_mutex_unlock(pthread_mutex_t *lock)
{
	(void)lock;
	return 0;
}

static inline int pthread_mutex_destroy(pthread_mutex_t *lock)
{
	(void)lock;
	return 0;
}

#endif
