/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_LOGREAD_H
#define TARN_LEAK_LOGREAD_H

#include "tarn/leak.h"
#include "tarn/leak/sheet.h"

/* What the header and the rows of a log share. */

struct tarn_log {
	const struct tarn_alloc *alloc;
	struct tarn_reading *readings;
	size_t count, room;
	struct tarn_log_info info;
};

enum heading { DATE, TIME, RULER, METER, NOTE, HEADINGS };

struct log_reader {
	struct tarn_log *log;
	struct tarn_log_options options;
	int have_header;
	size_t columns;			/* of the header */
	int place[HEADINGS];		/* cell, -1: none */
	char name[HEADINGS][40];	/* as the file writes it */
	double ruler_m, meter_m3;	/* units */
	int imperial, down;
	unsigned carried;		/* marks of a row without numbers */
};

extern const char *const tn_log_orders[];

/* Notes where an error that follows stands; returns 'err'. */
struct tarn_error *tn_log_here(struct tarn_error *err,
			       const struct sheet_cell *cell);

/* Finds the columns by their headings. */
enum tarn_status tn_log_take_header(struct log_reader *r,
				    const struct sheet_cell *cells,
				    size_t count, struct tarn_error *err);

#endif
