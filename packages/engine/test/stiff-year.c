/* The equations of a box's hours for CVODE of SUNDIALS (BDF, dense Newton): right-hand side written plainly, nothing shared with the engine but the numbers
   on stdin. Knows faces with layers and bare parts, openings, cracks, door, gear, heat and water set free and the floor's wood; neither fan, heater, snow,
   rain nor second roof. Moist air: Hyland and Wexler's saturation as in the ASHRAE Handbook, Fundamentals; wood: Wood Handbook eq. 4-5.
   What switches is rounded off within two seconds or EPS of film, so that a step can be found; it starts afresh where the forcing bends. */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#define K0 273.15
#define SIG 5.670374e-8
#define LV 2501000.0
#define LF 333600.0
#define EPS 1e-8
#define BAND 1e-3
#define FULL 1e-4
#define MAX 64
/* The handbook's curves of wood are for these temperatures; outside they are held. */
#define LOW -1.1
#define HIGH 48.9

static double num(void) { double x; if (fread(&x, 8, 1, stdin) != 1) exit(2); return x; }
static double *nums(int n) { double *p = malloc(8 * (n + 1)); if (n > 0 && fread(p, 8, n, stdin) != (size_t)n) exit(2); return p; }

static int S, N, holes, hours, perHour, floorAt, gearAt, from[MAX], to[MAX], side[MAX], sees[MAX];
static double area[MAX], outArea[MAX], inArea[MAX], absorb[MAX], emit[MAX], windFilm[MAX], outWarm[MAX], outCold[MAX], inWarm[MAX], inCold[MAX], star[MAX], holds[MAX], heat[MAX], next[MAX];
static int pathSide[MAX];
static double pathZ[MAX], pathC[MAX], pathWinter[MAX], wallShare[8];
static double volume, leak, leakN, gearUA, woodKg, woodTop, woodThick, woodMu, painted, doorM2, doorH, boxWind, heightM;
static double *gearW, *airW, *waterKgS, *doorS, *winter, *month, *hour;
static double *airC, *ratio, *pressure, *down, *wall, *ground, *sun, *wind, *windPa, *windward;
static int step; static double topKg, restKg, floorM2, inside;

static double lerp(const double *a, double f, int wide, int at) { return a[step * wide + at] + f * (a[(step + 1) * wide + at] - a[step * wide + at]); }
static double sat(double c) {
  double T = c + K0;
  if (c < 0.01) return exp(-5674.5359 / T + 6.3925247 + T * (-9.677843e-3 + T * (6.2215701e-7 + T * (2.0747825e-9 - 9.484024e-13 * T))) + 4.1635019 * log(T));
  return exp(-5800.2206 / T + 1.3914993 + T * (-4.8640239e-2 + T * (4.1764768e-5 - 1.4452093e-8 * T)) + 6.5459673 * log(T));
}
/* The lesser of two, rounded off; nothing where one is. */
static double lesser(double x, double y) { return x > 0 && y > 0 ? x * y / (x + y) : 0; }
static double overWater(double c) {
  double T = c + K0;
  return exp(-5800.2206 / T + 1.3914993 + T * (-4.8640239e-2 + T * (4.1764768e-5 - 1.4452093e-8 * T)) + 6.5459673 * log(T));
}
static double moisture(double c, double h) {
  double t = c < LOW ? LOW : c > HIGH ? HIGH : c, w = 349 + t * (1.29 + t * 0.0135), k = 0.805 + t * (0.000736 - t * 0.00000273);
  double k1 = 6.27 - t * (0.00938 + t * 0.000303), k2 = 1.91 + t * (0.0407 - t * 0.000293), x = k * h, one = k1 * x, two = k1 * k2 * x * x;
  return 18 / w * (x / (1 - x) + (one + 2 * two) / (1 + one + two));
}
static double humidity(double c, double u) {
  double full = moisture(c, 0.995), lo = 0, hi = 0.995, h = 0.5;
  if (u >= full) return 0.995 + 0.5 * (u - full);
  for (int i = 0; i < 40 && hi - lo > 1e-12; i++) {
    double m = moisture(c, h) - u, g = (moisture(c, h + 1e-6) - moisture(c, h - 1e-6)) / 2e-6, n;
    if (m > 0) hi = h; else lo = h;
    n = h - m / g;
    if (fabs(n - h) < 1e-13) return n;
    h = n > lo && n < hi ? n : 0.5 * (lo + hi);
  }
  return h;
}

/* One inside pressure at which what comes in goes out: Newton between what lies below and above. */
static double inflow(double a, double w, double out, double wo, double pa, double rhoIn, double rhoOut, int mo, int hr) {
  double drive[MAX], lo = 1e30, hi = -1e30, flow[MAX], V = wind[step] * boxWind;
  int P = holes + 8, cold = winter[mo] > 0;
  for (int i = 0; i < P; i++) {
    double z = i < holes ? pathZ[i] : (i - holes) % 2 == 0 ? 0.1 * heightM : 0.9 * heightM;
    int sd = i < holes ? pathSide[i] : (i - holes) / 2;
    drive[i] = windPa[step * 6 + sd] - (rhoOut - rhoIn) * 9.80665 * z;
    if (drive[i] < lo) lo = drive[i];
    if (drive[i] > hi) hi = drive[i];
  }
  double p = inside < lo ? lo : inside > hi ? hi : inside;
  for (int pass = 0; pass < 80; pass++) {
    double net = 0, slope = 0, gross = 0;
    for (int i = 0; i < P; i++) {
      double d = drive[i] - p, x = fabs(d), rho = d > 0 ? rhoOut : rhoIn, f, g, n = i < holes ? 0.5 : leakN;
      double c = i < holes ? pathC[i] * (cold ? pathWinter[i] : 1) * sqrt(2 * rho) : 0.5 * leak * wallShare[(i - holes) / 2] * rho;
      if (x < 0.01) { g = c * pow(0.01, n) / 0.01; f = g * d; }
      else { f = c * pow(x, n); g = n * f / x; if (d < 0) f = -f; }
      flow[i] = f; net += f; slope += g; gross += fabs(f);
    }
    if (fabs(net) <= 1e-11 * gross) break;
    if (net > 0) lo = p; else hi = p;
    double q = p + net / slope;
    p = q > lo && q < hi ? q : 0.5 * (lo + hi);
  }
  inside = p;
  double in = 0, stir = sqrt(9.80665 * fabs(a - out) / ((a + out) / 2 + K0));
  for (int i = 0; i < P; i++) {
    if (flow[i] > 0) in += flow[i];
    if (i >= holes) continue;
    double both = rhoOut * (cold ? pathWinter[i] : 1) * pathC[i] * (stir * pow(pathC[i], 0.25) / 3 + 0.025 * V);
    if (both > fabs(flow[i])) in += both - fabs(flow[i]);
  }
  in += rhoOut * doorS[hr] / 3600 * (0.5 * doorM2 / 3 * sqrt(doorH) * stir + 0.025 * doorM2 * V);
  return in / (1 + wo);
}

/* y: nodes, air, water ratio, top and rest of the wood, then water and frost of each surface. */
static int rates(double t, N_Vector yv, N_Vector dv, void *user) {
  double *y = N_VGetArrayPointer(yv), *d = N_VGetArrayPointer(dv), a = y[N], w = y[N + 1], u1 = y[N + 2], u2 = y[N + 3];
  double f = t / (3600.0 / perHour);
  int h = step / perHour, mo = (int)month[h], hr = (int)hour[h], slot = mo * 24 + hr;
  if (w < 1e-7) w = 1e-7;
  double out = lerp(airC, f, 1, 0), wo = lerp(ratio, f, 1, 0), pa = 0.5 * (pressure[step] + pressure[step + 1]);
  double pv = pa * w / (0.621945 + w), po = pa * wo / (0.621945 + wo), aK = a + K0;
  double rhoIn = (pa - 0.378 * pv) / (287.042 * aK), rhoOut = (pa - 0.378 * po) / (287.042 * (out + K0));
  double cp = 1006 + 1860 * w, dry = volume * (pa - pv) / (287.042 * aK), vap = pv / (461.524 * aK);
  double flow = inflow(a, w, out, wo, pa, rhoIn, rhoOut, mo, hr);
  double s = a;
  for (int pass = 0; pass < 8; pass++) {
    double up = 0, un = 0;
    for (int i = 0; i < S; i++) if (i != gearAt) { double tn = y[to[i]], m = 0.5 * (tn + s) + K0, c = 4 * SIG * m * m * m * star[i]; up += c * tn; un += c; }
    s = up / un;
  }
  double toAir = airW[slot], toVap = waterKgS[slot], dx1 = 0, dx2 = 0, drip = 0;
  for (int i = 0; i < N + 4 + 2 * S; i++) d[i] = 0;
  for (int i = 0; i < S; i++) {
    int o = from[i], n = to[i];
    double To = y[o], Tn = y[n], q = y[N + 4 + 2 * i], fr = y[N + 5 + 2 * i], film, *dq = d + N + 4 + 2 * i;
    if (i != gearAt && sees[i] == 0) {
      double x = To - out, k = To + K0, lw = side[i] == 4 ? lerp(down, f, 1, 0) : lerp(wall, f, 1, 0);
      film = cbrt(fabs(x)) * (x > 0 ? outWarm[i] : outCold[i]) + windFilm[i] * sqrt(wind[step]) * (windward[step * 6 + side[i]] > 0 ? 1 : 0.5);
      d[o] += film * outArea[i] * (out - To) + absorb[i] * area[i] * lerp(sun, f, 6, side[i]) + emit[i] * area[i] * (lw - SIG * k * k * k * k);
    } else if (i != gearAt) d[o] += 6 * outArea[i] * ((sees[i] == 1 ? out : lerp(ground, f, 1, 0)) - To);
    for (int j = o; j < n; j++) { double e = next[j] * (y[j] - y[j + 1]); d[j] -= e; d[j + 1] += e; }
    double g;
    if (i == gearAt) { g = gearUA; d[n] += gearW[slot]; }
    else {
      double x = Tn - a, m = 0.5 * (Tn + s) + K0;
      g = cbrt(fabs(x)) * (x > 0 ? inWarm[i] : inCold[i]) * inArea[i];
      d[n] += 4 * SIG * m * m * m * star[i] * (s - Tn);
    }
    d[n] += g * (a - Tn); toAir += g * (Tn - a);
    double mass = g / (rhoIn * cp * cbrt(0.87 * 0.87)), ps = sat(Tn), F = q + fr, there = F > 0 ? F / (F + EPS) : 0;
    double put = mass * (vap - ps / (461.524 * (Tn + K0)));
    int wood = i == floorAt && woodKg > 0;
    if (wood) {
      double resist = floorM2 / fmax(mass / (461.524 * aK), 1e-12) / floorM2 + woodTop / 2 * (woodMu / 1.97e-10) * painted / floorM2;
      double p1 = ps * humidity(Tn, u1), p2 = ps * humidity(Tn, u2);
      double in = (1 - there) * (pv - p1) / resist, deep = floorM2 * 1.97e-10 * (p1 - p2) / ((woodThick / 2) * woodMu);
      dx1 += (in - deep) / topKg; dx2 += deep / restKg;
      d[n] += LV * in; toVap -= in;
      put = put < 0 ? -lesser(-put, F * area[i] / 2) : put * there;
    } else if (put < 0) put = -lesser(-put, F * area[i] / 2);
    double ice = Tn < -BAND ? 1 : Tn > BAND ? 0 : 0.5 - Tn / (2 * BAND);
    toVap -= put; d[n] += (LV + ice * LF) * put;
    double per = put / area[i];
    if (per > 0) { dq[1] += ice * per; dq[0] += (1 - ice) * per; }
    else {
      double some = fr > 0 ? fr / (fr + EPS) : 0, ofFrost = ice * some + (1 - ice) * (q > 0 ? EPS / (q + EPS) : 1) * some;
      dq[1] += per * ofFrost; dq[0] += per * (1 - ofFrost);
    }
double thaw = Tn > 0 ? lesser(20000 * Tn, LF * fr / 2) : -lesser(-20000 * Tn, LF * q / 2);
    d[n] -= thaw * area[i]; dq[1] -= thaw / LF; dq[0] += thaw / LF;
    double over = F - holds[i];
    if (over > 0 && q > 0) { double rate = lesser(over, q) / 2; dq[0] -= rate; drip += rate * area[i]; }
  }
  /* Beyond saturation over water: drops within 5 s, down to the floor. */
  double full = overWater(a), most = 0.621945 * full / (pa - full);
  if (w > most) { double fog = dry * (w - most) / 5; toVap -= fog; toAir += LV * fog; drip += fog; }
  double *pool = d + N + 4 + 2 * floorAt, lies = y[N + 4 + 2 * floorAt];
  pool[0] += drip / floorM2;
  /* Full at 0.3, by a slope: a switch there, with a puddle above, is stepped over. */
  if (woodKg > 0 && lies > 0 && u1 < 0.3) { double soak = lies / (3600 * painted) * fmin(1, (0.3 - u1) / FULL); pool[0] -= soak; dx1 += soak * floorM2 / topKg; }
  for (int j = 0; j < N; j++) d[j] /= heat[j];
  /* Air that the box breathes as it cools hangs on how fast it cools. */
  double breath = 0, da = 0, dw = 0, cpo = 1006 + 1860 * wo;
  for (int pass = 0; pass < 4; pass++) {
    da = (toAir + (flow + breath) * cpo * (out - a)) / (dry * cp);
    dw = (toVap + (flow + breath) * (wo - w)) / dry;
    double dpv = pa * 0.621945 / ((0.621945 + w) * (0.621945 + w)) * dw, grows = -dry * da / aK - volume * dpv / (287.042 * aK);
    breath = grows > 0 ? grows / (1 + wo) : 0;
  }
  d[N] = da; d[N + 1] = dw; d[N + 2] = dx1; d[N + 3] = dx2;
  return 0;
}

int main(void) {
  S = (int)num(); N = (int)num(); holes = (int)num(); hours = (int)num(); perHour = (int)num(); floorAt = (int)num(); gearAt = (int)num();
  double startC = num(), startW = num(), startU = num(), rtol = num();
  volume = num(); leak = num(); leakN = num(); gearUA = num(); woodKg = num(); woodTop = num(); woodThick = num(); woodMu = num(); painted = num();
  doorM2 = num(); doorH = num(); boxWind = num(); heightM = num();
  for (int i = 0; i < S; i++) {
    double *r = nums(17);
    from[i] = r[0]; to[i] = r[1]; side[i] = r[2]; sees[i] = r[3]; area[i] = r[4]; outArea[i] = r[5]; inArea[i] = r[6]; absorb[i] = r[7]; emit[i] = r[8];
    windFilm[i] = r[9]; outWarm[i] = r[10]; outCold[i] = r[11]; inWarm[i] = r[12]; inCold[i] = r[13]; star[i] = r[14]; holds[i] = r[15];
  }
  for (int i = 0; i < N; i++) { heat[i] = num(); next[i] = num(); }
  for (int i = 0; i < holes; i++) { pathSide[i] = num(); pathZ[i] = num(); pathC[i] = num(); pathWinter[i] = num(); }
  for (int i = 0; i < 4; i++) wallShare[i] = num();
  gearW = nums(288); airW = nums(288); waterKgS = nums(288); doorS = nums(24); winter = nums(12); month = nums(hours); hour = nums(hours);
  int M = hours * perHour;
  airC = nums(M + 1); ratio = nums(M + 1); pressure = nums(M + 1); down = nums(M + 1); wall = nums(M + 1); ground = nums(M + 1); sun = nums(6 * M + 6);
  wind = nums(M); windPa = nums(6 * M); windward = nums(6 * M);
  floorM2 = area[floorAt];
  double top = fmin(0.9, woodTop / woodThick);
  topKg = woodKg * top * floorM2; restKg = woodKg * (1 - top) * floorM2;

  int n = N + 4 + 2 * S;
  SUNContext sc; SUNContext_Create(NULL, &sc);
  N_Vector y = N_VNew_Serial(n, sc), tol = N_VNew_Serial(n, sc);
  double *v = N_VGetArrayPointer(y), *a = N_VGetArrayPointer(tol);
  for (int i = 0; i < n; i++) { v[i] = i <= N ? startC : i == N + 1 ? startW : i < N + 4 ? startU : 0; a[i] = i <= N ? 1e-4 : i == N + 1 ? 1e-8 : i < N + 4 ? 1e-7 : 1e-9; }
  void *cv = CVodeCreate(CV_BDF, sc);
  SUNMatrix A = SUNDenseMatrix(n, n, sc); SUNLinearSolver ls = SUNLinSol_Dense(y, A, sc);
  if (CVodeInit(cv, rates, 0, y) || CVodeSVtolerances(cv, rtol, tol) || CVodeSetLinearSolver(cv, ls, A)) return 4;
  CVodeSetMaxNumSteps(cv, 200000);
  CVodeSetErrFile(cv, NULL);
  long all = 0, some;
  for (step = 0; step < M; step++) {
    double t = 0, end = 3600.0 / perHour;
    CVodeReInit(cv, 0, y); CVodeSetStopTime(cv, end);
    int tries = 0;
    while (CVode(cv, end, y, &t, CV_NORMAL) < 0) {
      /* On a kink that no step gets over: afresh from where it stands. */
      if (++tries > 50) { fprintf(stderr, "step %d at %g s", step, t); return 5; }
      CVodeGetNumRhsEvals(cv, &some); all += some;
      CVodeGetCurrentTime(cv, &t);
      CVodeReInit(cv, t, y); CVodeSetStopTime(cv, end);
    }
    CVodeGetNumRhsEvals(cv, &some); all += some;
    if ((step + 1) % perHour != 0) continue;
    double row[17] = {v[N], v[to[gearAt]], pressure[step + 1] * v[N + 1] / (0.621945 + v[N + 1]), v[N + 2]};
    for (int i = 0, done = 0; i < S; i++) if (side[i] == done && i != gearAt && (i == 0 || side[i - 1] != side[i])) { row[4 + done] = v[to[i]]; row[10 + done++] = v[N + 4 + 2 * i] + v[N + 5 + 2 * i]; }
    row[16] = all;
    fwrite(row, 8, 17, stdout);
  }
  return 0;
}
