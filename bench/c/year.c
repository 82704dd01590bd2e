/* The frame around the hourly loop in C: reads the engine's arrays on stdin, runs them again and again, prints the median milliseconds of processor time and the check sum.
   `loop-in-c.ts` writes the loop itself into "loop.h" from the engine's own text. */
#define _GNU_SOURCE
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static struct { void *now, *first; size_t bytes; } lists[256];
static int listsCount;

static double number(void) {
  double x;
  if (fread(&x, sizeof x, 1, stdin) != 1) exit(2);
  return x;
}

static void *list(size_t width) {
  size_t bytes = width * (size_t)number();
  void *now = aligned_alloc(64, (bytes + 127) / 64 * 64), *first = malloc(bytes + 1);
  if (bytes > 0 && fread(first, bytes, 1, stdin) != 1) exit(2);
  memcpy(now, first, bytes);
  lists[listsCount].now = now; lists[listsCount].first = first; lists[listsCount++].bytes = bytes;
  return now;
}

static inline double most(double a, double b) { return a > b ? a : b; }
static inline double least(double a, double b) { return a < b ? a : b; }
static inline double film0(double x) { return x > 0 ? x : 0; }

static inline double cubeRootFast(double x) {
  if (!(x > 1e-12)) return 0;
  unsigned long long bits;
  memcpy(&bits, &x, 8);
  bits = (unsigned long long)(unsigned)((int)((unsigned)(bits >> 32) * 0.3333333333333333) + 715094163) << 32 | (bits & 0xffffffffu);
  double y;
  memcpy(&y, &bits, 8);
  double c = y * y * y;
  y = (y * (c + x + x)) / (c + c + x);
  c = y * y * y;
  return (y * (c + x + x)) / (c + c + x);
}

#include "loop.h"

static int rising(const void *x, const void *y) { double d = *(const double *)x - *(const double *)y; return d < 0 ? -1 : d > 0; }

int main(int argc, char **argv) {
  if (argc != 5) return 1;
  int from = atoi(argv[1]), to = atoi(argv[2]), rounds = atoi(argv[3]);
  int hoursCount = atoi(argv[4]);
  double *took = malloc(sizeof(double) * rounds), sum = 0;
  readAll();
  for (int round = 0; round < rounds; round++) {
    for (int i = 0; i < listsCount; i++) memcpy(lists[i].now, lists[i].first, lists[i].bytes);
    struct timespec a, b;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &a);
    advance(from, to);
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &b);
    took[round] = (b.tv_sec - a.tv_sec) * 1e3 + (b.tv_nsec - a.tv_nsec) * 1e-6;
  }
  qsort(took, rounds, sizeof(double), rising);
  for (int h = 0; h < hoursCount; h++) sum += in.series_airC[h] + in.series_gearC[h] + in.series_vapourPa[h] + in.series_floorWaterKg[h];
  for (int j = 0; j < hoursCount * 6; j++) sum += in.series_faceC[j] + 1e3 * in.series_filmKgPerM2[j];
  printf("%.6f %.6f %.17g\n", took[rounds / 2], took[0], sum);
  for (int h = 0; h < hoursCount; h++) printf("%.9g\n", in.series_airC[h]);
  return 0;
}
