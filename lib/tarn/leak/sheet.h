/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_SHEET_H
#define TARN_LEAK_SHEET_H

#include "tarn/base.h"

/* Rows of a small CSV file as cells that know where they stand. */

#define SHEET_CELLS_MAX 64

struct sheet_cell {
	const char *text;	/* trimmed; "" for an empty one */
	long line, column;	/* where it begins, 1-based, in bytes */
};

typedef enum tarn_status sheet_row(void *context,
				   const struct sheet_cell *cells,
				   size_t count, struct tarn_error *err);

/*
 * Hands each row to 'row' until one fails.  Separator: comma, or semicolon
 * where the first line has those and no comma.  Lines that begin with # and
 * blank lines are left out.  Errors: TARN_EIO, TARN_EFORMAT with the place.
 */
enum tarn_status tn_sheet_read(const char *path, sheet_row *row, void *context,
			       struct tarn_error *err);

/* ---- what stands in a cell; 0 if it is none of the kind ------------- */

/* "7:30", "19:30:00", "7:30 pm"; hours */
int tn_sheet_hour(const char *text, double *out);
/* Three numbers parted by one of - / . ; 'order' is "ymd", "mdy", "dmy".
 * *rest is what follows. */
int tn_sheet_date(const char *text, const char *order, long *day,
		  const char **rest);

#endif
