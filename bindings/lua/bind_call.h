/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_CALL_H
#define TARN_BIND_CALL_H

/*
 * Functions of the module that are made from rows (call.c): of plain numbers,
 * and from options to results.  The rows check the arguments, and
 * tarn.signature(f) gives them, so that editors show what a function takes.
 */

#include "bind.h"

/* ---- plain numbers ------------------------------------------------------- */

struct bind_argument {
	const char *name, *unit;	/* "" and "-": no unit is shown */
	double lo, hi;
	int optional;			/* left out, it is 'otherwise' */
	double otherwise;
};
#define BIND_NUMBER(name, unit, lo, hi) { name, unit, lo, hi, 0, TARN_NAN }
#define BIND_OPTION(name, unit, lo, hi, otherwise)                           \
	{ name, unit, lo, hi, 1, otherwise }

#define BIND_ARGUMENTS 6

struct bind_plain {
	const char *name;
	union {
		double (*one)(double);
		double (*two)(double, double);
		double (*three)(double, double, double);
		double (*four)(double, double, double, double);
		double (*five)(double, double, double, double, double);
		double (*six)(double, double, double, double, double, double);
	} call;				/* of as many as have a name below */
	const char *unit;		/* of the result */
	struct bind_argument argument[BIND_ARGUMENTS];
	int named;			/* 1: all come in one table, by name */
	const char *refusal;		/* raised where the result is NaN;
					   NULL: NaN is the result */
};

/* A row: BIND_PLAIN("runoff", two, tarn_runoff, "mm", arguments); more of it
 * stands behind BIND_PLAIN_. */
#define BIND_PLAIN_(name_, many, function, unit_, ...)                       \
	.name = name_, .call = { .many = function }, .unit = unit_,          \
	.argument = { __VA_ARGS__ }
#define BIND_PLAIN(...) { BIND_PLAIN_(__VA_ARGS__) }

/* Reads numbers by their names from the table at 'arg', which has no others. */
void bind_arguments(lua_State *L, int arg, const char *section,
		    const struct bind_argument asked[], int count, double x[]);

/* Calls the row's function with the arguments from 1 on. */
int bind_call_plain(lua_State *L, const struct bind_plain *f);

/* Sets functions of the table on top; the last row's name is NULL. */
void bind_add_plain(lua_State *L, const struct bind_plain rows[]);

/* ---- from options to results --------------------------------------------- */

typedef enum tarn_status bind_solve(const void *in, void *out,
				    struct tarn_error *err);

/* How options are read beside their rows.  'adapt' (or NULL) writes in full what
 * the table may say in short; 'assume' (or NULL) sets what follows from it: the
 * table is read again after that, so that what is said wins. */
typedef void bind_adapt(lua_State *L, struct tarn_values *values,
			struct tarn_value *options);
typedef void bind_assume(void *in);

struct bind_solver {
	const char *name;
	const struct tarn_fields *in, *out;
	size_t in_bytes, out_bytes;
	bind_solve *solve;
	const char *first;		/* number of the result that is
					   returned before it, or NULL */
	bind_assume *assume;
};

/* Reads the options at 1 into 'in', which gets its defaults; pushes what has the
 * memory of the lists in it. */
void bind_options(lua_State *L, const struct tarn_fields *fields, void *in,
		  bind_adapt *adapt, bind_assume *assume);

/*
 * A list of functions of the library is a macro that takes a macro,
 *
 *   #define SOLVERS(X) \
 *	X(pipe, tarn_pipe, tarn_pipe_solve, tarn_pipe_flow, .first = NULL) \
 *	X(name, struct of options, function, struct of results, the rest)
 *   BIND_SOLVERS(solvers, SOLVERS)
 *
 * with the rows of both structs in variables of the struct's name and
 * "_fields".  The function may take the first member of the options.
 */
#define BIND_SOLVE_(id, in_, function, out_, ...)                            \
	static enum tarn_status solve_##id(const void *in, void *out,        \
					   struct tarn_error *err)           \
	{                                                                    \
		return function(in, out, err);                               \
	}
#define BIND_SOLVER_ROW_(id, in_, function, out_, ...)                       \
	{ .name = #id, .in = &in_##_fields, .out = &out_##_fields,           \
	  .in_bytes = sizeof(struct in_), .out_bytes = sizeof(struct out_),  \
	  .solve = solve_##id, __VA_ARGS__ },
#define BIND_SOLVERS(variable, list)                                         \
	list(BIND_SOLVE_)                                                    \
	static const struct bind_solver variable[] = {                       \
		list(BIND_SOLVER_ROW_) { .name = NULL }                      \
	};

/* Sets functions of the table on top. */
void bind_add_solvers(lua_State *L, const struct bind_solver rows[]);

/* tarn.signature(f) -> what f takes and gives, or nil */
int bind_signature(lua_State *L);

#endif
