/* SPDX-License-Identifier: MIT */
#ifndef LIP_FLOW_H
#define LIP_FLOW_H

/*
 * A second way to the water's rise over a short lip: finite volumes on a plan,
 * written for the tests and sharing nothing with the library.
 *
 * A layer of constant thickness takes a rain of q on its whole plan, or what
 * comes in evenly at its far side, and loses it over a lip in the middle of its
 * near side.  Along the flow the gradient is a v + b v^2.  By symmetry half of
 * the plan is solved: 'across' cells from the lip to the far side.  The lip's
 * last cell counts in part.  Each pass solves a linear field with conjugate
 * gradients, then takes each cell's conductivity from its speed.
 */

#include <math.h>
#include <stdlib.h>

struct lip_flow {
	double side_m, way_m, lip_m;	/* along the lip, to the far side */
	double q_ms;		/* on the plan */
	int from_far;		/* 1: the same flow enters at the far side */
	double a, b;		/* of the gradient */
	double layer_m;
	int across;		/* cells to the far side */
};

struct lip_grid {
	int nx, nz;
	double dx, dz;
	double *k;		/* conductivity of a cell */
	double *east, *north, *out;	/* conductances: to the next cell away
					   from the lip, along it, to the lip */
	double *h, *r, *p, *ap, *diag;
};

static double mean(double a, double b)
{
	return 2 * a * b / (a + b);
}

static void conduct(const struct lip_flow *f, struct lip_grid *g)
{
	for (int i = 0; i < g->nx; i++)
		for (int j = 0; j < g->nz; j++) {
			int c = i * g->nz + j;
			double lip = f->lip_m / 2 - j * g->dz;
			double part = fmax(0, fmin(1, lip / g->dz));

			g->east[c] = i + 1 < g->nx ? f->layer_m * g->dz / g->dx
				* mean(g->k[c], g->k[c + g->nz]) : 0;
			g->north[c] = j + 1 < g->nz ? f->layer_m * g->dx / g->dz
				* mean(g->k[c], g->k[c + 1]) : 0;
			g->out[c] = i == 0 ? part * f->layer_m * g->dz /
				(g->dx / 2) * g->k[c] : 0;
		}
}

/* y = A x; the diagonal goes to g->diag. */
static void apply(struct lip_grid *g, const double *x, double *y)
{
	int n = g->nx * g->nz;

	for (int c = 0; c < n; c++) {
		g->diag[c] = g->out[c];
		y[c] = g->out[c] * x[c];
	}
	for (int c = 0; c < n; c++) {
		if (g->east[c] > 0) {
			double flow = g->east[c] * (x[c] - x[c + g->nz]);

			y[c] += flow;
			y[c + g->nz] -= flow;
			g->diag[c] += g->east[c];
			g->diag[c + g->nz] += g->east[c];
		}
		if (g->north[c] > 0) {
			double flow = g->north[c] * (x[c] - x[c + 1]);

			y[c] += flow;
			y[c + 1] -= flow;
			g->diag[c] += g->north[c];
			g->diag[c + 1] += g->north[c];
		}
	}
}

/* Solves for g->h, from the last one. */
static void relax(const struct lip_flow *f, struct lip_grid *g)
{
	int n = g->nx * g->nz;
	double rain = f->q_ms * g->dx * g->dz, rz = 0, first = 0;

	apply(g, g->h, g->ap);
	for (int c = 0; c < n; c++) {
		double in = !f->from_far ? rain
			: c / g->nz == g->nx - 1 ? rain * g->nx : 0;

		g->r[c] = in - g->ap[c];
		g->p[c] = g->r[c] / g->diag[c];
		rz += g->r[c] * g->p[c];
		first += in * in / g->diag[c];
	}
	for (int k = 0; k < 20000 && rz > 1e-18 * first; k++) {
		double pap = 0, next = 0;

		apply(g, g->p, g->ap);
		for (int c = 0; c < n; c++)
			pap += g->p[c] * g->ap[c];
		for (int c = 0; c < n; c++) {
			g->h[c] += rz / pap * g->p[c];
			g->r[c] -= rz / pap * g->ap[c];
			next += g->r[c] * g->r[c] / g->diag[c];
		}
		for (int c = 0; c < n; c++)
			g->p[c] = g->r[c] / g->diag[c] + next / rz * g->p[c];
		rz = next;
	}
}

/* Speed in the middle of a cell, from the flows through its four sides. */
static double speed(const struct lip_flow *f, const struct lip_grid *g, int i,
		    int j)
{
	int c = i * g->nz + j, n = g->nz;
	const double *h = g->h;
	double in = i + 1 < g->nx ? g->east[c] * (h[c + n] - h[c])
		: f->from_far ? f->q_ms * g->dx * g->dz * g->nx : 0;
	double away = i > 0 ? g->east[c - n] * (h[c] - h[c - n])
			    : g->out[c] * h[c];
	double side = (j + 1 < n ? g->north[c] * (h[c + 1] - h[c]) : 0) +
		      (j > 0 ? g->north[c - 1] * (h[c] - h[c - 1]) : 0);

	return hypot((in + away) / (2 * f->layer_m * g->dz),
		     side / (2 * f->layer_m * g->dx));
}

/* Level of the highest place over that at the lip. */
static double lip_flow_rise(const struct lip_flow *f)
{
	struct lip_grid g = { .nx = f->across };
	double *all, last = 0, top = 0;
	size_t n;

	g.nz = (int)fmax(2, round(f->side_m / 2 / f->way_m * f->across));
	g.dx = f->way_m / g.nx;
	g.dz = f->side_m / 2 / g.nz;
	n = (size_t)(g.nx * g.nz);
	all = calloc(9 * n, sizeof *all);
	g.k = all;
	g.east = all + n;
	g.north = all + 2 * n;
	g.out = all + 3 * n;
	g.h = all + 4 * n;
	g.r = all + 5 * n;
	g.p = all + 6 * n;
	g.ap = all + 7 * n;
	g.diag = all + 8 * n;
	for (size_t c = 0; c < n; c++)
		g.k[c] = 1 / (f->a + f->b * f->q_ms);
	for (int pass = 0; pass < 300; pass++) {
		conduct(f, &g);
		relax(f, &g);
		top = 0;
		for (size_t c = 0; c < n; c++)
			top = fmax(top, g.h[c]);
		if (f->b == 0 || fabs(top - last) < 1e-7 * top)
			break;
		last = top;
		for (int i = 0; i < g.nx; i++)
			for (int j = 0; j < g.nz; j++) {
				double *k = &g.k[i * g.nz + j];

				*k = sqrt(*k / (f->a + f->b *
						speed(f, &g, i, j)));
			}
	}
	free(all);
	return top;
}

#endif
