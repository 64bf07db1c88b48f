/* SPDX-License-Identifier: MIT */
#include "internal.h"

/*
 * Tables whose values stand between blanks, as some archives print them.  They
 * are not read; what is said depends on whether a row is a day or a month.
 */

#define ROWS_LEAST 3
#define VALUES_LEAST 4

static struct text take_word(struct text *t)
{
	struct text word;

	while (t->length > 0 && (t->at[0] == ' ' || t->at[0] == '\r')) {
		t->at++;
		t->length--;
	}
	word = *t;
	for (word.length = 0; t->length > 0 && t->at[0] != ' ' &&
	     t->at[0] != '\r'; word.length++) {
		t->at++;
		t->length--;
	}
	return word;
}

struct blanks {
	size_t rows, months;	/* rows of values; a month behind the last */
	long month;		/* of the row before: 12 x year + month */
};

/* A line that begins with a digit: is it a row?  0: it has a delimiter. */
static int count_line(struct blanks *b, struct text line)
{
	double year = 0, month = 0;
	size_t words = 0;
	long now;

	for (size_t i = 0; i < line.length; i++)
		if (line.at[i] == ',' || line.at[i] == ';' ||
		    line.at[i] == '\t')
			return 0;
	for (struct text rest = line, word; rest.length > 0; words++) {
		word = take_word(&rest);
		if (words == 0 && tn_number(word, &year) != NUMBER_OK)
			year = 0;
		if (words == 1 && tn_number(word, &month) != NUMBER_OK)
			month = 0;
	}
	if (words < VALUES_LEAST)
		return 0;
	now = year >= 1600 && year < 2300 && month >= 1 && month <= 12
		      ? 12 * (long)year + (long)month : 0;
	b->months += now > 0 && (b->rows == 0 || now == b->month + 1);
	b->month = now;
	b->rows++;
	return 1;
}

const char *tn_blanks_wrong(struct text t)
{
	struct blanks b = { 0, 0, 0 };
	size_t others = 0;

	while (t.length > 0) {
		struct text line = tn_text_trim(tn_take_line(&t));

		if (line.length > 0 && line.at[0] >= '0' && line.at[0] <= '9')
			others += !count_line(&b, line);
	}
	if (b.rows < ROWS_LEAST || others > b.rows / 10)
		return NULL;
	if (b.months + 1 >= b.rows)
		return "has a row a month, and a ledger needs days: ask the "
		       "service for daily values; without them, tarn topup "
		       "POND.lua --climate NAME takes a climate (tarn weather "
		       "--climates lists them)";
	return "has blanks between its values, and commas, semicolons or tabs "
	       "are wanted: open it in a spreadsheet program as text of fixed "
	       "width, and save its sheet as CSV (UTF-8)";
}
