import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readJob, withInsideHot } from '../../job/index.ts'
import { newMemory, type Verdict, worst } from '../../kernel/index.ts'
import { plan } from '../../plan/index.ts'
import { assess } from '../assess.ts'
import { readShop } from '../read-shop.ts'
import { turningInputs } from './inputs.ts'
import { onlyFor } from './only.ts'
import { turningPoints } from './turn.ts'
import type { TurningInput } from './types.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const read = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
if (!read.ok) throw new Error(JSON.stringify(read.problems))
const shop = read.value
const written = readJob(text('examples/two-machines.yaml'), { file: 'two-machines' })
if (!written.ok) throw new Error(JSON.stringify(written.problems))
const job = written.value
const { design } = plan(job, shop)
const tag = job.plugs.find((p) => p.cordM > 0)!.tag
const drop = { question: 'reach', code: 'reach/drop', subject: tag } as const

const verdictAt = (input: TurningInput, value: number, judged: { readonly code: string; readonly subject: string }): Verdict => {
  const changed = input.set(job, design, value)
  const found = assess(changed.job, changed.design, shop).findings
  return worst(found.filter((f) => f.code === judged.code && f.subject === judged.subject).map((f) => f.verdict))
}

describe('what would change a verdict', () => {
  const inputs = turningInputs(job, design, drop)
  const cord = inputs.find((i) => i.id === `${tag}/cord`)!
  const found = turningPoints(job, design, shop, drop, inputs)
  const point = found.points.find((p) => p.id === cord.id)!

  test('a longer cord turns the drop, and a whole assessment says the same on both sides of the point', () => {
    expect(point.turnsAt).toBeGreaterThan(cord.value)
    const before = verdictAt(cord, cord.value, drop)
    expect(verdictAt(cord, point.turnsAt!, drop)).toBe(point.becomes)
    expect(point.becomes).not.toBe(before)
    expect(verdictAt(cord, point.turnsAt! - 2e-3 * cord.value, drop)).toBe(before)
  })

  test('trying every length on the way finds no nearer one', () => {
    const before = verdictAt(cord, cord.value, drop)
    for (let i = 1; i < 12; i++) expect(verdictAt(cord, cord.value + (i / 12) * (point.turnsAt! - cord.value), drop)).toBe(before)
  })

  /** Drop of a two-wire run is 2·I·R·L, in proportion to its length. @source NEC chapter 9, tables 8 and 9, notes. Provenance: memory */
  test('the point is where a straight line through two lengths meets the limit', () => {
    const fracAt = (value: number): number => {
      const changed = cord.set(job, design, value)
      const plugs = assess(changed.job, changed.design, shop).results.reach.boxes[0]!.states[0]!.plugs
      return plugs.find((p) => p.plug === tag)!.totalDropFrac
    }
    const [short, long] = [fracAt(cord.value / 2), fracAt(cord.value)]
    const atPoint = fracAt(point.turnsAt!)
    const straight = long + ((long - short) / (cord.value / 2)) * (point.turnsAt! - cord.value)
    // Heat that falls with the volts bends the line a little.
    expect(Math.abs(straight - atPoint) / atPoint).toBeLessThan(0.03)
  })

  test('nearest first; what turns nothing comes last', () => {
    const far = found.points.map((p) => (p.turnsAt === null ? Number.POSITIVE_INFINITY : Math.abs(p.turnsAt / p.value - 1)))
    expect(far).toEqual(far.toSorted((a, b) => a - b))
    expect(found.cut).toBe(false)
  })

  test('work is counted: where it is used up, later inputs are left and it says so', () => {
    const few = turningPoints(job, design, shop, drop, inputs, 5)
    expect(few.cut).toBe(true)
    expect(few.points.length).toBeLessThan(inputs.length)
  })

  test('asking one question only gives what a whole assessment gives', () => {
    const memory = onlyFor('reach', newMemory())
    assess(job, design, shop, { memory })
    for (const share of [0.5, 3, 6]) {
      const changed = cord.set(job, design, cord.value * share)
      const own = (all: ReturnType<typeof assess>) =>
        all.findings.filter((f) => f.question === 'reach').map((f) => [f.code, f.subject, f.verdict, f.said])
      expect(own(assess(changed.job, changed.design, shop, { memory }))).toEqual(own(assess(changed.job, changed.design, shop)))
    }
  })

  test('each input changes what it says it changes', () => {
    for (const input of inputs) {
      const changed = input.set(job, design, input.value * 1.5)
      expect(changed, input.id).not.toEqual({ job, design })
      expect(input.set(job, design, input.value), input.id).toEqual({ job, design })
    }
  })
})

test('air inside that the year found is asked as if it were told otherwise: the year does not put its own back', () => {
  const id = job.boxes[0]!.id
  const found = withInsideHot(
    { ...job, boxes: job.boxes.map((b) => ({ ...b, insideHotC: { ...b.insideHotC, told: false } })) },
    new Map([[id, 41]]),
  )
  const input = turningInputs(found, design, { ...drop, question: 'circuits' }).find((i) => i.id === `${id}/inside-hot`)!
  expect(input.value).toBe(41)
  const asked = input.set(found, design, 55).job
  expect(asked.boxes[0]!.insideHotC).toMatchObject({ low: 55, high: 55, told: true })
  expect(withInsideHot(asked, new Map([[id, 41]]))).toBe(asked)
})
