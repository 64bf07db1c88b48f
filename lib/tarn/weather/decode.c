/* SPDX-License-Identifier: MIT */
#include "internal.h"

/*
 * Bytes of a file to UTF-8: a byte order mark is taken off, and UTF-16, which
 * its mark or the zero in its first letter gives away, is transcoded.  Bytes without a mark pass as they are.
 * The pieces may be cut anywhere.
 */

static const unsigned char mark[3] = { 0xef, 0xbb, 0xbf };	/* UTF-8's */

/* One more byte of the start; 1 once it is known what the bytes are.  Then
 * d->seen bytes of d->start are text. */
static int know(struct decoder *d, unsigned char byte)
{
	d->start[d->seen++] = (char)byte;
	if (d->seen == 2 && (unsigned char)d->start[0] + byte == 0xff + 0xfe &&
	    byte >= 0xfe) {
		d->encoding = byte == 0xfe ? ENCODING_UTF16_LE
					   : ENCODING_UTF16_BE;
		d->seen = 0;
		return 1;
	}
	if (d->seen == 1)
		return 0;
	/* no text of bytes has a zero here; UTF-16 without a mark has */
	if (d->seen == 2 && !d->start[0] != !byte) {
		d->encoding = byte ? ENCODING_UTF16_BE : ENCODING_UTF16_LE;
		return 1;
	}
	if ((unsigned char)d->start[d->seen - 1] == mark[d->seen - 1] &&
	    (unsigned char)d->start[0] == mark[0]) {
		if (d->seen < 3)
			return 0;
		d->seen = 0;
	}
	d->encoding = ENCODING_BYTES;
	return 1;
}

size_t tn_put_utf8(char *out, unsigned long c)
{
	if (c < 0x80) {
		out[0] = (char)c;
		return 1;
	}
	if (c < 0x800) {
		out[0] = (char)(0xc0 | c >> 6);
		out[1] = (char)(0x80 | (c & 0x3f));
		return 2;
	}
	if (c < 0x10000) {
		out[0] = (char)(0xe0 | c >> 12);
		out[1] = (char)(0x80 | (c >> 6 & 0x3f));
		out[2] = (char)(0x80 | (c & 0x3f));
		return 3;
	}
	out[0] = (char)(0xf0 | c >> 18);
	out[1] = (char)(0x80 | (c >> 12 & 0x3f));
	out[2] = (char)(0x80 | (c >> 6 & 0x3f));
	out[3] = (char)(0x80 | (c & 0x3f));
	return 4;
}

#define REPLACEMENT 0xfffd	/* for half a surrogate pair */

/* One unit of UTF-16 to at most seven bytes. */
static size_t put_unit(struct decoder *d, char *out, unsigned unit)
{
	unsigned high = d->high;
	size_t n = 0;

	d->high = 0;
	if (unit >= 0xdc00 && unit < 0xe000 && high)
		return tn_put_utf8(out, 0x10000UL + ((high - 0xd800UL) << 10) +
						(unit - 0xdc00));
	if (high)
		n = tn_put_utf8(out, REPLACEMENT);
	if (unit >= 0xd800 && unit < 0xdc00) {
		d->high = unit;
		return n;
	}
	if (unit >= 0xdc00 && unit < 0xe000)
		unit = REPLACEMENT;
	return n + tn_put_utf8(out + n, unit);
}

static enum tarn_status transcode(struct decoder *d, const char *bytes,
				  size_t count, text_handler *handler,
				  void *context)
{
	enum tarn_status status = TARN_OK;
	char out[4096];
	size_t n = 0;

	for (size_t i = 0; i < count && status == TARN_OK; i++) {
		unsigned char byte = (unsigned char)bytes[i];

		if (!d->halved) {
			d->half = byte;
			d->halved = 1;
			continue;
		}
		d->halved = 0;
		n += put_unit(d, out + n, d->encoding == ENCODING_UTF16_LE
						  ? d->half | byte << 8
						  : d->half << 8 | byte);
		if (n > sizeof out - 8) {
			status = handler(context, out, n);
			n = 0;
		}
	}
	return n > 0 && status == TARN_OK ? handler(context, out, n) : status;
}

enum tarn_status tn_decode(struct decoder *d, const char *bytes, size_t count,
			   text_handler *handler, void *context)
{
	enum tarn_status status = TARN_OK;

	while (d->encoding == ENCODING_UNKNOWN && count > 0) {
		count--;
		if (know(d, (unsigned char)*bytes++) && d->seen > 0)
			status = d->encoding == ENCODING_BYTES
				? handler(context, d->start, (size_t)d->seen)
				: transcode(d, d->start, (size_t)d->seen,
					    handler, context);
	}
	if (status != TARN_OK || count == 0)
		return status;
	if (d->encoding != ENCODING_BYTES)
		return transcode(d, bytes, count, handler, context);
	return handler(context, bytes, count);
}

enum tarn_status tn_decode_finish(struct decoder *d, text_handler *handler,
				  void *context, struct tarn_error *err)
{
	if (d->encoding == ENCODING_UNKNOWN && d->seen > 0)
		return handler(context, d->start, (size_t)d->seen);
	if (d->halved || d->high)
		return tarn_fail(err, TARN_EFORMAT, NULL, "the file is UTF-16 "
				 "and ends in the middle of a character: is it "
				 "cut short?");
	return TARN_OK;
}
