/* The same backward-forward sweep in plain C: three or five wires, radial, flat start. Reads a feeder on stdin, prints the median microseconds. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static int k, n, loads;
static int *parent, *start, *from, *to, *model;
static double *z, *watts, *vars, *nominal, *source, *v, *a;

static int sweep(double tolerance, int most) {
  for (int i = 0; i < n; i++) memcpy(v + 2 * k * i, source, sizeof(double) * 2 * k);
  for (int pass = 1; pass <= most; pass++) {
    memset(a, 0, sizeof(double) * 2 * k * n);
    for (int i = n - 1; i > 0; i--) {
      double *ai = a + 2 * k * i, *vi = v + 2 * k * i, *up = a + 2 * k * parent[i];
      for (int l = start[i]; l < start[i + 1]; l++) {
        double ur = vi[2 * from[l]], ui = vi[2 * from[l] + 1];
        if (to[l] >= 0) { ur -= vi[2 * to[l]]; ui -= vi[2 * to[l] + 1]; }
        double s = ur * ur + ui * ui, vn = nominal[l];
        double g = model[l] == 2 ? 1 / s : model[l] == 1 ? 1 / (vn * sqrt(s)) : 1 / (vn * vn);
        double p = watts[l] * g, q = vars[l] * g, ir = p * ur + q * ui, ii = p * ui - q * ur;
        ai[2 * from[l]] += ir; ai[2 * from[l] + 1] += ii;
        if (to[l] >= 0) { ai[2 * to[l]] -= ir; ai[2 * to[l] + 1] -= ii; }
      }
      for (int w = 0; w < 2 * k; w++) up[w] += ai[w];
    }
    double moved = 0;
    for (int i = 1; i < n; i++) {
      double *ai = a + 2 * k * i, *vi = v + 2 * k * i, *up = v + 2 * k * parent[i], *zi = z + 2 * k * k * i;
      for (int w = 0; w < k; w++) {
        double re = up[2 * w], im = up[2 * w + 1];
        for (int c = 0; c < k; c++, zi += 2) {
          re -= zi[0] * ai[2 * c] - zi[1] * ai[2 * c + 1];
          im -= zi[0] * ai[2 * c + 1] + zi[1] * ai[2 * c];
        }
        double dr = re - vi[2 * w], di = im - vi[2 * w + 1], change = dr * dr + di * di;
        if (change > moved) moved = change;
        vi[2 * w] = re; vi[2 * w + 1] = im;
      }
    }
    if (moved < tolerance * tolerance) return pass;
  }
  return -1;
}

static double *reals(int count) {
  double *p = malloc(sizeof(double) * (count > 0 ? count : 1));
  for (int i = 0; i < count; i++) if (scanf("%lf", p + i) != 1) exit(2);
  return p;
}

static int *wholes(int count) {
  int *p = malloc(sizeof(int) * (count > 0 ? count : 1));
  for (int i = 0; i < count; i++) if (scanf("%d", p + i) != 1) exit(2);
  return p;
}

static int rising(const void *x, const void *y) { double d = *(const double *)x - *(const double *)y; return d < 0 ? -1 : d > 0; }

int main(void) {
  if (scanf("%d %d %d", &k, &n, &loads) != 3) return 2;
  parent = wholes(n); start = wholes(n + 1); from = wholes(loads); to = wholes(loads); model = wholes(loads);
  z = reals(2 * k * k * n); watts = reals(loads); vars = reals(loads); nominal = reals(loads); source = reals(2 * k);
  v = malloc(sizeof(double) * 2 * k * n); a = malloc(sizeof(double) * 2 * k * n);
  double times[31], most = 0;
  int passes = 0;
  for (int round = 0; round < 31; round++) {
    struct timespec t0, t1;
    clock_gettime(CLOCK_MONOTONIC, &t0);
    for (int i = 0; i < 200; i++) passes = sweep(230e-8, 100);
    clock_gettime(CLOCK_MONOTONIC, &t1);
    times[round] = ((t1.tv_sec - t0.tv_sec) * 1e6 + (t1.tv_nsec - t0.tv_nsec) / 1e3) / 200;
  }
  qsort(times, 31, sizeof(double), rising);
  for (int i = 0; i < 2 * k * n; i++) most += v[i];
  printf("%.3f %d %.9f\n", times[15], passes, most);
  return 0;
}
