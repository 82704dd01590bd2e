import { Fault } from '../../kernel/index.ts'
import { wholeNumbers } from './exact.ts'
import { type ExactCut, type ExactPlan, type ExactRequest, exactPlan } from './exact-plan.ts'
import type { CutBar, CutLack, CutPiece, CutPlan, CutRequest } from './types.ts'
import { cutWorking } from './working.ts'

/** A tape and a saw stop are good to this; lengths are taken to it. */
const STEP_MM = 0.1
/** Remnants from this length on are kept. @source common practice */
export const KEEP_MM = 300
/** A longer list is not a shop's. */
export const PIECES_MOST = 20_000

/**
 * How to cut pieces from stock: least money where every kind of stock has a price, then fewest bars, then few different ways to cut, then a
 * long remnant; with bound, proof and the marks from the datum end of each bar. Method: docs/shop-cutting.md.
 *
 * Lengths > 0, kerf, trim and prices ≥ 0, counts whole and ≥ 0; all lengths are taken to the nearest 0.1 mm. A list that cannot be cut is an
 * answer (`outcome`, `lacks`), not an error.
 * @throws Fault `shop/cut-range` a number outside its range, an id twice, no stock, or more than 20 000 pieces
 */
export function cutPlan(request: CutRequest): CutPlan {
  check(request)
  const tenths = (mm: number): number => Math.round(mm / STEP_MM)
  const toMm = (whole: number): number => unit.value(whole)
  const rounded = (mm: number): number => tenths(mm) / 10
  const { stocks, pieces } = request
  const kerf = rounded(request.kerfMm)
  const trim = rounded(request.trimMm)
  const lengths = [...stocks.map((s) => rounded(s.lengthMm)), ...pieces.map((p) => rounded(p.lengthMm))]
  const unit = whole([...lengths, kerf, trim])
  const money = whole(stocks.map((stock) => stock.costMoney ?? 0))
  const exact: ExactRequest = {
    stocks: stocks.map((s) => ({
      length: unit.of(rounded(s.lengthMm)),
      length2: 0,
      cost: s.costMoney === null ? null : money.of(s.costMoney),
      count: s.count,
    })),
    kerf: unit.of(kerf),
    trim: unit.of(trim),
    items: pieces.map((p) => ({ length: unit.of(rounded(p.lengthMm)), length2: 0, count: p.count })),
  }
  const plan = exactPlan(exact)
  const take = takers(request, rounded)
  const bars = plan.cuts.map((cut) => barOf(cut, plan, request, { toMm, kerf, trim, rounded, take }))
  const found = plan.goal === 'money' ? (plan.cost === null ? null : money.value(plan.cost)) : plan.count
  const bound = plan.goal === 'money' ? money.value(plan.bound) : plan.bound
  const result: Omit<CutPlan, 'working'> = {
    outcome: plan.outcome,
    goal: plan.goal,
    bars,
    count: plan.count,
    costMoney: plan.cost === null ? null : money.value(plan.cost),
    bound,
    boundKind: plan.boundKind,
    proven: plan.proven,
    gap: plan.outcome !== 'cut' || found === null ? null : plan.proven ? 0 : tidy(found - bound),
    ffdCount: plan.plainCount,
    setUps: { count: bars.length, least: plan.setUpsLeast },
    remnantMostMm: Math.max(0, ...bars.map((bar) => bar.remnantMm)),
    lacks: lacksOf(plan, request, toMm, rounded),
    work: plan.work,
  }
  return {
    ...result,
    working: cutWorking(plan, result, { toLength: toMm, toMoney: money.value, kerf, trim, unit: 'mm', stocks: exact.stocks }),
  }
}

/** Sums of decimals, without the last bits. */
const tidy = (value: number): number => Number(value.toFixed(6))

function whole(values: readonly number[]) {
  const numbers = wholeNumbers(values)
  if (numbers === null) throw new Fault('shop/cut-range', { finerThan: 1e-6, values })
  return numbers
}

interface Scale {
  readonly toMm: (whole: number) => number
  readonly kerf: number
  readonly trim: number
  readonly rounded: (mm: number) => number
  readonly take: (lengthMm: number) => { readonly id: string; readonly label: string }
}

/** Longest piece first from the datum end: what goes wrong last goes wrong on the least. */
function barOf(cut: ExactCut, plan: ExactPlan, request: CutRequest, { toMm, kerf, trim, rounded, take }: Scale): CutBar {
  const stock = request.stocks[cut.stock]!
  const lengthMm = rounded(stock.lengthMm)
  const pieces: CutPiece[] = []
  let at = trim
  cut.counts.forEach((count, item) => {
    const piece = toMm(plan.items[item]!.length)
    for (let n = 0; n < count; n += 1) {
      const sawMm = rounded(at + piece)
      const which = Array.from({ length: cut.times }, () => take(piece))
      pieces.push({
        lengthMm: piece,
        fromMm: at,
        sawMm,
        sawn: sawMm < lengthMm,
        ids: which.map(({ id }) => id),
        labels: which.map(({ label }) => label),
      })
      at = rounded(sawMm + kerf)
    }
  })
  const remnantMm = toMm(cut.remnant)
  return {
    stock: stock.id,
    lengthMm,
    times: cut.times,
    pieces,
    remnantMm,
    keep: remnantMm >= (request.keepMm ?? KEEP_MM),
    sawnOffMm: toMm(cut.saw),
    trimMm: rounded(2 * trim),
  }
}

/** Hands out the pieces of a length in the order of their ids. */
function takers(request: CutRequest, rounded: (mm: number) => number): Scale['take'] {
  const queues = new Map<number, { id: string; label: string; left: number }[]>()
  const order = request.pieces.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
  for (const { id, label, lengthMm, count } of order) {
    const key = rounded(lengthMm)
    if (!queues.has(key)) queues.set(key, [])
    queues.get(key)!.push({ id, label, left: count })
  }
  return (lengthMm) => {
    const next = queues.get(lengthMm)?.find((one) => one.left > 0)
    if (next === undefined) throw new Fault('shop/cut-piece-twice', { lengthMm })
    next.left -= 1
    return { id: next.id, label: next.label }
  }
}

/** Every piece that is too long by its id, or what all of them need beside what there is. */
function lacksOf(
  plan: ExactPlan,
  request: CutRequest,
  toMm: (whole: number) => number,
  rounded: (mm: number) => number,
): readonly CutLack[] {
  return plan.lacks.flatMap((lack): readonly CutLack[] => {
    const [needed, there] = [toMm(lack.needed), toMm(lack.there)]
    if (lack.kind !== 'too long') return [{ kind: lack.kind, neededMm: needed, thereMm: there }]
    return request.pieces
      .filter((piece) => piece.count > 0 && rounded(piece.lengthMm) === needed)
      .map(({ id }) => ({ kind: 'too long', id, lengthMm: needed, longestMm: there }))
  })
}

function check(request: CutRequest): void {
  const { stocks, pieces, kerfMm, trimMm, keepMm = KEEP_MM } = request
  const positive = (n: number): boolean => n >= STEP_MM && n <= 1e6
  const notNegative = (n: number): boolean => n >= 0 && n <= 1e6
  const whole = (n: number): boolean => Number.isSafeInteger(n) && n >= 0
  const good =
    stocks.length > 0 &&
    stocks.every(
      (s) => positive(s.lengthMm) && (s.costMoney === null || notNegative(s.costMoney)) && (s.count === null || whole(s.count)),
    ) &&
    pieces.every((p) => positive(p.lengthMm) && whole(p.count)) &&
    [kerfMm, trimMm, keepMm].every(notNegative) &&
    pieces.reduce((sum, p) => sum + p.count, 0) <= PIECES_MOST &&
    [stocks, pieces].every((list) => new Set(list.map(({ id }) => id)).size === list.length)
  if (!good) throw new Fault('shop/cut-range', request)
}
