/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_STUDY_H
#define TARN_BIND_STUDY_H

#include "bind.h"

/*
 * A list of numbers at 'arg' as a new array of doubles, pushed as a userdata;
 * false stands for NaN.  Raises, naming 'what', for anything else.
 */
double *bind_doubles(lua_State *L, int arg, const char *what, size_t *count);

/* Pushes an array as a list; NaN becomes false. */
void bind_push_doubles(lua_State *L, const double *x, size_t count);

/* Field of the table at 'arg', as bind_doubles; NULL (and nil pushed) if it
 * is not there. */
double *bind_field_doubles(lua_State *L, int arg, const char *name,
			   size_t *count);

#define STUDY_T "tarn.study"
/* A study, and what it borrows: user value 1 holds all of it, user
 * value 2 the rule. */
struct study_box {
	struct tarn_study study;
};

/* study:run(options) */
int bind_study_run(lua_State *L);

/* From here on Ctrl-C, SIGTERM and SIGHUP are noted instead of ending the
 * program, until as many have ceased to listen as have begun. */
void bind_listen(void);
void bind_cease(void);

/* Whether one came since; and its name. */
int bind_interrupted(void);
const char *bind_interruption(void);

/* study.interrupted() */
int bind_study_interrupted(lua_State *L);

/* Add their functions to the table tarn.study on top. */
void bind_study_records(lua_State *L);
void bind_study_tools(lua_State *L);
void bind_study_weather(lua_State *L);

#endif
