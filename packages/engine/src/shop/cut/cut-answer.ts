import { Fault, type Finding, source, type Working } from '../../kernel/index.ts'
import { type CutFile, UNITS_MM } from './cut-file.ts'
import { type Whole, wholeNumbers } from './exact.ts'
import { type ExactCut, type ExactPlan, type ExactRequest, exactPlan } from './exact-plan.ts'
import { cutWorking } from './working.ts'

/** A length as the file writes it: a number, or a pair where there are two limits. */
type Size = number | readonly [number, number]

export interface CutAnswer {
  readonly title: string
  readonly outcome: ExactPlan['outcome']
  readonly goal: ExactPlan['goal']
  /** Bars; null without a plan. */
  readonly count: number | null
  /** null without a plan, or without prices. */
  readonly cost: number | null
  /** No plan needs fewer bars, or costs less where stock has prices. */
  readonly bound: number
  readonly boundKind: ExactPlan['boundKind']
  readonly proven: boolean
  readonly gap: number | null
  readonly materialBound: number
  /** Of the linear relaxation, not rounded; null where it was given up. */
  readonly linearBound: number | null
  /** Bars by the plain first-fit-decreasing rule; null where it runs out of stock. */
  readonly ffdCount: number | null
  readonly ffdCost: number | null
  readonly setUps: { readonly count: number; readonly least: number }
  /** The file's unit of length, in which sizes, marks, kerf and trim are. */
  readonly unit: string
  readonly kerf: number
  readonly trim: number
  readonly patterns: readonly {
    readonly stock: Size
    readonly times: number
    readonly pieces: readonly { readonly size: Size; readonly count: number }[]
    /** From the datum end: where each piece ends and the blade stands beyond. */
    readonly marks: readonly number[]
    /** Turned to dust by the saw, in the file's unit. */
    readonly sawn: number
    readonly remnantMm: number
  }[]
  readonly lacks: readonly {
    readonly kind: 'too long' | 'too little' | 'no arrangement'
    readonly limit: 1 | 2
    readonly needed: number
    readonly there: number
  }[]
  readonly notRead: readonly string[]
  readonly work: number
  readonly working: Working
}

/** Cuts the list of a file. Every number is taken as it is written: no length is rounded. */
export function cutAnswer(file: CutFile): CutAnswer {
  const unit = wholly([...file.stocks.map((s) => s.length), ...file.items.map((i) => i.size), file.kerf, file.trim])
  const second = wholly([...file.stocks.map((s) => s.length2), ...file.items.map((i) => i.size2)])
  const money = wholly(file.stocks.map((s) => s.cost ?? 0))
  const request: ExactRequest = {
    stocks: file.stocks.map((s) => ({
      length: unit.of(s.length),
      length2: second.of(s.length2),
      cost: s.cost === null ? null : money.of(s.cost),
      count: s.count,
    })),
    kerf: unit.of(file.kerf),
    trim: unit.of(file.trim),
    items: file.items.map((i) => ({ length: unit.of(i.size), length2: second.of(i.size2), count: i.demand })),
  }
  const plan = exactPlan(request)
  const size = (length: number, length2: number): Size =>
    file.limits === 2 ? [unit.value(length), second.value(length2)] : unit.value(length)
  const cut = plan.outcome === 'cut'
  const cost = plan.cost === null ? null : money.value(plan.cost)
  const bound = plan.goal === 'money' ? money.value(plan.bound) : plan.bound
  const found = plan.goal === 'money' ? cost : plan.count
  const linear = plan.linearBound
  const answer = {
    title: file.title,
    outcome: plan.outcome,
    goal: plan.goal,
    count: cut ? plan.count : null,
    cost,
    bound,
    boundKind: plan.boundKind,
    proven: plan.proven,
    gap: !cut || found === null ? null : Number((found - bound).toFixed(6)),
    materialBound: plan.goal === 'money' ? money.value(plan.materialBound) : plan.materialBound,
    linearBound: linear === null ? null : plan.goal === 'money' ? money.value(linear) : linear,
    ffdCount: plan.plainCount,
    ffdCost: plan.plainCost === null ? null : money.value(plan.plainCost),
    setUps: { count: plan.cuts.length, least: plan.setUpsLeast },
    unit: file.unit,
    kerf: file.kerf,
    trim: file.trim,
    patterns: plan.cuts.map((one) => ({
      stock: size(request.stocks[one.stock]!.length, request.stocks[one.stock]!.length2),
      times: one.times,
      pieces: plan.items.flatMap((item, i) =>
        one.counts[i]! > 0 ? [{ size: size(item.length, item.length2), count: one.counts[i]! }] : [],
      ),
      marks: marksOf(one, plan, request).map(unit.value),
      sawn: unit.value(one.saw),
      remnantMm: millimetres(unit.value(one.remnant), file),
    })),
    lacks: plan.lacks.map(({ kind, limit, needed, there }) => {
      const of = limit === 1 ? unit : second
      return { kind, limit, needed: of.value(needed), there: of.value(there) }
    }),
    notRead: file.notRead,
    work: plan.work,
  }
  const working = cutWorking(
    plan,
    { bound, boundKind: plan.boundKind, costMoney: cost, count: answer.count, gap: answer.gap, ffdCount: plan.plainCount },
    {
      toLength: unit.value,
      toMoney: money.value,
      kerf: file.kerf,
      trim: file.trim,
      unit: file.unit === '1' ? '' : file.unit,
      stocks: request.stocks,
    },
  )
  return { ...answer, working }
}

/** The reader lets nothing through that is finer than a millionth. */
function wholly(values: readonly number[]): Whole {
  const found = wholeNumbers(values)
  if (found === null) throw new Fault('shop/cut-range', { finerThan: 1e-6, values })
  return found
}

function marksOf(cut: ExactCut, plan: ExactPlan, { kerf, trim }: ExactRequest): readonly number[] {
  const marks: number[] = []
  let at = trim
  cut.counts.forEach((count, i) => {
    for (let n = 0; n < count; n += 1) {
      at += plan.items[i]!.length
      marks.push(at)
      at += kerf
    }
  })
  return marks
}

const millimetres = (value: number, { unit }: CutFile): number => Number((value * UNITS_MM[unit]).toFixed(6))

const SAW = source('the saw’s cut; 2–3 mm for a chop saw', 'common practice')
const COUNT = source('cutting plan with its bound', 'computed')

/** What a cut says: that it is impossible and by how much, that it is not proven, that a saw without kerf was asked for. */
export function cutFindings(answer: CutAnswer, file: CutFile, subject: string): readonly Finding[] {
  const unit = file.unit === '1' ? '' : ` ${file.unit}`
  const common = { question: 'shop' as const, subject, assumed: [], workings: [], mends: [] }
  const found: Finding[] = answer.lacks.map((lack) => {
    const of = lack.limit === 2 ? '' : unit
    const said = {
      'too long': `A piece of ${lack.needed}${of} is longer than the longest stock, ${lack.there}${of} between its trims.`,
      'too little': `The pieces come to ${lack.needed}${of}; all stock together has ${lack.there}${of}.`,
      'no arrangement': `The pieces come to ${lack.needed}${of} and the stock to ${lack.there}${of}, but no arrangement of cuts fits.`,
    }[lack.kind]
    return {
      ...common,
      code: lack.kind === 'too long' ? 'shop/cut-too-long' : 'shop/cut-stock-short',
      verdict: 'fails',
      basis: 'physics',
      said,
      demand: { symbol: 'needed', value: lack.needed, unit: of.trim() },
      limit: { symbol: 'there', value: lack.there, unit: of.trim() },
      provenance: COUNT.provenance,
    }
  })
  if (!answer.proven)
    found.push({
      ...common,
      code: 'shop/cut-unproven',
      verdict: 'unknown',
      basis: 'physics',
      said:
        answer.gap === null
          ? 'No plan was found within the counted work, and none is proven impossible.'
          : `The plan holds, but the search was given up: ${answer.gap} above the bound of ${answer.bound}, so a better one may exist.`,
      provenance: COUNT.provenance,
    })
  if (file.kerfSaid && file.kerf === 0)
    found.push({
      ...common,
      code: 'shop/cut-no-kerf',
      verdict: 'tight',
      basis: 'house',
      said: 'The kerf is 0: no saw cuts without one, and pieces that fill a bar to its end will come out short.',
      provenance: SAW.provenance,
    })
  return found
}
