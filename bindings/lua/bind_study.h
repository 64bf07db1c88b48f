/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_STUDY_H
#define TARN_BIND_STUDY_H

#include "bind.h"

#define STUDY_T "tarn.study"
/* A study, and what it borrows: user value 1 holds all of it, user
 * value 2 the control. */
struct study_box {
	struct tarn_study study;
};

/* study:run(options) */
int bind_study_run(lua_State *L);

/* Pushes a fingerprint as text. */
void bind_push_fingerprint(lua_State *L, uint64_t fingerprint);

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
void bind_study_units(lua_State *L);

#endif
