/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_CALL_H
#define TARN_BIND_CALL_H

/*
 * Functions of the module that are made from rows (call.c): of plain numbers,
 * and from a table of options to a table of results.
 * The rows check the arguments, and tarn.signature(f) gives them, so that
 * editors show what a function takes.
 */

#include "bind.h"

/* ---- plain numbers ------------------------------------------------------- */

struct bind_argument {
	const char *name, *unit;	/* "" and "-": no unit is shown */
	double lo, hi;
	int optional;			/* left out, it is 'otherwise' */
	double otherwise;
};

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

struct bind_solver {
	const char *name;
	const struct tarn_fields *in, *out;
	size_t in_bytes, out_bytes;
	bind_solve *solve;
	const char *first;		/* number of the result that is
					   returned before it, or NULL */
	const char *const *also;	/* fields that 'prepare' reads */
	void (*prepare)(lua_State *L, void *in);	/* from the table at
					   1, before the rows are read */
};

/*
 * A list of solvers is a macro that takes a macro,
 *
 *   #define SOLVERS(X) \
 *	X(pipe, tarn_pipe, tarn_pipe_solve, tarn_pipe_flow, NULL) \
 *	X(name, struct of options, function, struct of results, first, ...)
 *   BIND_SOLVERS(solvers, SOLVERS)
 *
 * with the rows of both structs in variables of the struct's name and
 * "_fields"; what comes after 'first' is 'also' and 'prepare'.
 */
#define BIND_SOLVE_(id, in_, function, out_, ...)                            \
	static enum tarn_status solve_##id(const void *in, void *out,        \
					   struct tarn_error *err)           \
	{                                                                    \
		const struct in_ *x = in;                                    \
		struct out_ *y = out;                                        \
		                                                             \
		return function(x, y, err);                                  \
	}
#define BIND_SOLVER_ROW_(id, in_, function, out_, ...)                       \
	{ #id, &in_##_fields, &out_##_fields, sizeof(struct in_),            \
	  sizeof(struct out_), solve_##id, __VA_ARGS__ },
#define BIND_SOLVERS(variable, list)                                         \
	list(BIND_SOLVE_)                                                    \
	static const struct bind_solver variable[] = {                       \
		list(BIND_SOLVER_ROW_) { .name = NULL }                      \
	};

/* Sets functions of the table on top. */
void bind_add_solvers(lua_State *L, const struct bind_solver rows[]);

/* Reads the options at 1 into 'in', which has its defaults: first 'prepare',
 * then the rows, so that what is said wins.  Pushes one value: see
 * bind_borrow. */
void bind_options(lua_State *L, const struct tarn_fields *fields, void *in,
		  const char *const also[],
		  void (*prepare)(lua_State *L, void *in));

/* tarn.signature(f) -> what f takes and gives, or nil */
int bind_signature(lua_State *L);

#endif
