/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "csv.h"

/* Where in a row the next character stands. */
enum { BETWEEN_ROWS, BEFORE_VALUE, IN_BARE, IN_QUOTES, AFTER_QUOTE };

struct caller {
	csv_field_handler *on_field;
	csv_row_handler *on_row;
	void *context;
};

int csv_init(struct csv_parser *p, unsigned char options)
{
	(void)options;
	*p = (struct csv_parser){ .delim_char = ',', .realloc_func = realloc,
				  .free_func = free };
	return 0;
}

void csv_set_delim(struct csv_parser *p, unsigned char c)
{
	p->delim_char = c;
}

void csv_set_realloc_func(struct csv_parser *p, void *(*f)(void *, size_t))
{
	p->realloc_func = f;
}

void csv_set_free_func(struct csv_parser *p, void (*f)(void *))
{
	p->free_func = f;
}

void csv_free(struct csv_parser *p)
{
	p->free_func(p->entry_buf);
	p->entry_buf = NULL;
	p->entry_size = 0;
}

int csv_error(struct csv_parser *p)
{
	return p->status;
}

static void end_value(struct csv_parser *p, const struct caller *to)
{
	if (p->pstate == IN_BARE)
		p->entry_pos -= p->spaces;
	to->on_field(p->entry_buf, p->entry_pos, to->context);
	p->pstate = BEFORE_VALUE;
	p->entry_pos = p->spaces = 0;
}

static void end_row(struct csv_parser *p, const struct caller *to, int end)
{
	to->on_row(end, to->context);
	p->pstate = BETWEEN_ROWS;
}

static int is_blank(const struct csv_parser *p, unsigned char c)
{
	return (c == ' ' || c == '\t') && c != p->delim_char;
}

static void keep(struct csv_parser *p, unsigned char c)
{
	p->entry_buf[p->entry_pos++] = c;
}

static int grow(struct csv_parser *p)
{
	size_t size = p->entry_size + 1024;
	unsigned char *more = p->realloc_func(p->entry_buf, size);

	if (!more)
		return 0;
	p->entry_buf = more;
	p->entry_size = size;
	return 1;
}

/* A character outside quotes that ends a value, or a row too; 0 if not. */
static int ends(struct csv_parser *p, unsigned char c, const struct caller *to)
{
	if (c != p->delim_char && c != '\r' && c != '\n')
		return 0;
	if (c == p->delim_char || p->pstate != BETWEEN_ROWS)
		end_value(p, to);
	if (c != p->delim_char && p->pstate != BETWEEN_ROWS)
		end_row(p, to, c);
	return 1;
}

static void begin(struct csv_parser *p, unsigned char c)
{
	if (is_blank(p, c))
		return;
	p->pstate = c == '"' ? IN_QUOTES : IN_BARE;
	if (c != '"')
		keep(p, c);
}

/* One character; 0 if it must not stand there. */
static int take(struct csv_parser *p, unsigned char c, const struct caller *to)
{
	if (p->pstate != IN_QUOTES && ends(p, c, to))
		return 1;
	switch (p->pstate) {
	case BETWEEN_ROWS:
	case BEFORE_VALUE:
		begin(p, c);
		return 1;
	case IN_BARE:
		if (c == '"')
			return 0;
		keep(p, c);
		p->spaces = is_blank(p, c) ? p->spaces + 1 : 0;
		return 1;
	case IN_QUOTES:
		if (c == '"')
			p->pstate = AFTER_QUOTE;
		else
			keep(p, c);
		return 1;
	default:	/* AFTER_QUOTE: blanks, or the second of two quotes */
		if (is_blank(p, c))
			p->spaces++;
		if (c == '"' && p->spaces == 0) {
			keep(p, c);
			p->pstate = IN_QUOTES;
			return 1;
		}
		return is_blank(p, c);
	}
}

size_t csv_parse(struct csv_parser *p, const void *bytes, size_t count,
		 csv_field_handler *on_field, csv_row_handler *on_row,
		 void *context)
{
	const struct caller to = { on_field, on_row, context };
	const unsigned char *s = bytes;

	for (size_t i = 0; i < count; i++) {
		if (p->entry_pos == p->entry_size && !grow(p))
			p->status = CSV_ENOMEM;
		else if (!take(p, s[i], &to))
			p->status = CSV_EPARSE;
		if (p->status != CSV_SUCCESS)
			return i;
	}
	return count;
}

int csv_fini(struct csv_parser *p, csv_field_handler *on_field,
	     csv_row_handler *on_row, void *context)
{
	const struct caller to = { on_field, on_row, context };

	if (p->pstate == IN_QUOTES) {
		p->status = CSV_EPARSE;
		return -1;
	}
	if (p->pstate != BETWEEN_ROWS) {
		end_value(p, &to);
		end_row(p, &to, -1);
	}
	p->status = CSV_SUCCESS;
	return 0;
}
