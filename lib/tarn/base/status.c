/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/base.h"

const char *tarn_version(void)
{
	return TARN_VERSION;
}

/* One line, whatever a file had in it: control characters become '?'. */
static void one_line(char *text)
{
	for (; *text; text++)
		if ((unsigned char)*text < 32 || *text == 127)
			*text = '?';
}

enum tarn_status tarn_fail(struct tarn_error *err, enum tarn_status code,
			   const char *field, const char *format, ...)
{
	va_list args;

	if (!err || err->code != TARN_OK)
		return code;
	err->code = code;
	if (err->mistake == TARN_MISTAKE_OTHER)
		err->found = err->lo = err->hi = TARN_NAN;
	err->settle = TARN_SETTLE_NONE;
	err->answers[0] = '\0';
	snprintf(err->field, sizeof err->field, "%s", field ? field : "");
	va_start(args, format);
	vsnprintf(err->text, sizeof err->text, format, args);
	va_end(args);
	one_line(err->field);
	one_line(err->text);
	return code;
}

enum tarn_status tarn_settled(struct tarn_error *err, enum tarn_settle by,
			      const char *answers, enum tarn_status status)
{
	size_t n = answers ? strlen(answers) : 0;

	if (status == TARN_OK || !err || err->code != status ||
	    err->settle != TARN_SETTLE_NONE || (int)by < 0 ||
	    by > TARN_SETTLE_PLACE)
		return status;
	err->settle = by;
	while (n >= sizeof err->answers) {	/* whole ones only */
		while (n > 0 && answers[n - 1] != '\t')
			n--;
		n -= n > 0;
	}
	if (n > 0)
		memcpy(err->answers, answers, n);
	err->answers[n] = '\0';
	return status;
}

const char *tarn_status_text(enum tarn_status status)
{
	switch (status) {
	case TARN_OK: return "no error";
	case TARN_EARG: return "value missing or out of range";
	case TARN_ENOMEM: return "out of memory";
	case TARN_EIO: return "file could not be opened, read or written";
	case TARN_EFORMAT: return "content of the file is wrong";
	case TARN_ESTOP: return "stopped by the caller";
	}
	return "unknown status";
}

void *tarn_resize(const struct tarn_alloc *alloc, void *block, size_t bytes)
{
	if (alloc)
		return alloc->resize(alloc->context, block, bytes);
	if (bytes == 0) {
		free(block);
		return NULL;
	}
	return realloc(block, bytes);
}
