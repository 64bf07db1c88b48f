/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEB_CSV_H
#define TARN_WEB_CSV_H

/*
 * The part of libcsv that the readers call, for the WebAssembly
 * build: there is no libcsv for that target.  Same names and members, code of
 * our own; tests/web/csv_same.c feeds both with the same bytes.
 *
 * Strict always: a quote inside a bare value, a character between a closing
 * quote and the delimiter, or a quote that is never closed is CSV_EPARSE.
 */

#include <stddef.h>

#define CSV_SUCCESS 0
#define CSV_EPARSE 1
#define CSV_ENOMEM 2

#define CSV_STRICT 1
#define CSV_STRICT_FINI 4

typedef void csv_field_handler(void *at, size_t length, void *context);
typedef void csv_row_handler(int end, void *context);

struct csv_parser {
	int pstate;
	size_t spaces;		/* blanks at the end of the value so far */
	unsigned char *entry_buf;	/* the value so far */
	size_t entry_pos, entry_size;
	int status;
	unsigned char delim_char;
	void *(*realloc_func)(void *, size_t);	/* realloc */
	void (*free_func)(void *);		/* free */
};

int csv_init(struct csv_parser *p, unsigned char options);
void csv_set_delim(struct csv_parser *p, unsigned char c);
void csv_set_realloc_func(struct csv_parser *p, void *(*f)(void *, size_t));
void csv_set_free_func(struct csv_parser *p, void (*f)(void *));
void csv_free(struct csv_parser *p);
int csv_error(struct csv_parser *p);

/* Number of bytes taken: less than 'count' after an error. */
size_t csv_parse(struct csv_parser *p, const void *bytes, size_t count,
		 csv_field_handler *on_field, csv_row_handler *on_row,
		 void *context);
int csv_fini(struct csv_parser *p, csv_field_handler *on_field,
	     csv_row_handler *on_row, void *context);

#endif
