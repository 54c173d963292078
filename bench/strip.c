/* C form of the general strip, which the compiler turns into wide vectors where it is told to: three cans, a tank through a cable on the first plate, a ladder filter. Timed by bench/run.ts.
   Reads doubles: draws, points, then per draw 36 coefficients of the cans, 9 of the filter, 6 of the accessory; then the frequencies. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double at(const double *c, const double *f, const double *t, double hz) {
  double w = 6.283185307179586 * hz, w2 = w * w, inv = 1 / w;
  double g = t[2] - t[5] + t[4], b = w * t[3], y = w * t[0] - t[1] * inv, d = y + b;
  double s = b / (g * g + d * d), lre = g * b * s, lim = (g * g + y * d) * s;
  double re = c[0] + w2 * (c[1] + w2 * c[2]), im = w * (c[3] + w2 * c[4]);
  double nre = c[6] + w2 * c[7], nim = w * (c[8] + w2 * c[9]);
  re += lre * nre - lim * nim;
  im += lre * nim + lim * nre;
  double below = re * re + im * im, above = w * c[5];
  for (int i = 1; i < 3; i++) {
    c += 12;
    re = c[0] + w2 * (c[1] + w2 * c[2]);
    im = w * (c[3] + w2 * c[4]);
    below *= re * re + im * im;
    above *= w * c[5];
  }
  double sx = w * f[2] - f[1] * inv, sc = w * f[0], sre = 1 - sc * sx, sim = sc * f[3], ss = 1 / (sre * sre + sim * sim);
  double zre = (f[3] * sre + sx * sim) * ss, zim = (sx * sre - f[3] * sim) * ss;
  double px = w * f[6] - f[5] * inv, ps = 1 / (f[7] * f[7] + px * px), yre = f[7] * ps, yim = w * f[4] - px * ps;
  double tre = 2 + zre * yre - zim * yim, tim = zre * yim + zim * yre, qre = tre * tre - tim * tim - 2, qim = 2 * tre * tim;
  double r = f[8], ere = zre / r + yre * r, eim = zim / r + yim * r;
  double ure = qre + tre * ere - tim * eim, uim = qim + tre * eim + tim * ere;
  double vre = qre * ure - qim * uim - 2, vim = qre * uim + qim * ure;
  return 4 * above * above / (below * (vre * vre + vim * vim));
}

int main(int argc, char **argv) {
  FILE *in = fopen(argv[argc - 1], "rb");
  double head[2];
  if (!in || fread(head, 8, 2, in) != 2) return 2;
  int draws = (int)head[0], points = (int)head[1];
  double *d = malloc(8 * 51 * (size_t)draws), *hz = malloc(8 * (size_t)points), *out = malloc(8 * (size_t)draws * (size_t)points);
  if (fread(d, 8, 51 * (size_t)draws, in) != 51 * (size_t)draws || fread(hz, 8, (size_t)points, in) != (size_t)points) return 2;
  double best = 1e9, sum = 0;
  for (int r = 0; r < 15; r++) {
    struct timespec a, b;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &a);
    for (int i = 0; i < draws; i++)
      for (int p = 0; p < points; p++) out[i * points + p] = at(d + 51 * i, d + 51 * i + 36, d + 51 * i + 45, hz[p]);
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &b);
    double ms = (b.tv_sec - a.tv_sec) * 1e3 + (b.tv_nsec - a.tv_nsec) / 1e6;
    if (ms < best) best = ms;
  }
  for (long i = 0; i < (long)draws * points; i++) sum += log10(out[i]);
  printf("{\"ms\":%.4f,\"sum\":%.17g}\n", best, sum);
  return 0;
}
