import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { assess } from '@plugstead/engine/assess'
import { editDocument, readJob } from '@plugstead/engine/job'
import { beforeAll, expect, test } from 'vitest'
import { judgementOf } from './answer.ts'
import { type AtWork, worked } from './at-work.ts'
import { heed, judged, standingOf } from './judge.ts'
import { shopNow } from './shop.ts'

const file = 'two-machines.yaml'
const text = readFileSync(join(import.meta.dirname, '../../../../examples', file), 'utf8')
const shop = () => {
  const read = shopNow()
  if (!read.ok) throw new Error('no shop')
  return read.value
}
let at: AtWork

const changed = (path: readonly (string | number)[], value: string): string => {
  const edited = editDocument(text, [{ path, value }])
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems))
  return edited.value
}

beforeAll(() => {
  const result = worked({ file, text }, shop())
  if (!result.ok) throw new Error('not read')
  at = result.value
  heed(standingOf('two', at))
}, 240_000)

test('the design that stands comes through the text it is handed on as', () => {
  expect(JSON.parse(standingOf('two', at).design)).toEqual(at.found.design)
})

test('nothing changed: the judge says what was planned, all of it fresh', () => {
  const said = judged({ job: 'two', file, text, all: false })
  expect(said?.judgement.questions).toEqual(judgementOf(at).questions)
  expect(said?.fresh).toContain('money')
})

test('a longer cord: reach is answered at once, and what it says is what an assessment without a memory says', () => {
  const longer = changed(['needs', 'machines', 0, 'cord'], '140 m')
  const before = judgementOf(at).findings.filter((f) => f.question === 'reach')
  const at_once = judged({ job: 'two', file, text: longer, all: false })!
  expect(at_once.fresh).toContain('reach')
  expect(at_once.fresh).not.toContain('money')
  const reach = at_once.judgement.findings.filter((f) => f.question === 'reach')
  expect(reach.map((f) => f.verdict)).not.toEqual(before.map((f) => f.verdict))
  const all = judged({ job: 'two', file, text: longer, all: true })!
  expect(all.fresh).toContain('money')
  const read = readJob(longer, { file })
  if (!read.ok) throw new Error('not read')
  const plugs = new Map(read.value.plugs.map((p) => [p.tag, p.cordM]))
  const design = {
    ...at.found.design,
    boxes: at.found.design.boxes.map((box) => ({
      ...box,
      circuits: box.circuits.map((c) => ({
        ...c,
        cords: c.cords.map((k) => ({ ...k, lengthM: plugs.get(k.plug) ?? k.lengthM })),
      })),
    })),
  }
  const bare = assess(read.value, design, shop(), at.found.beside)
  expect(all.judgement.findings).toEqual(bare.findings)
  const early = new Set(at_once.fresh)
  expect(at_once.judgement.findings.filter((f) => early.has(f.question))).toEqual(
    bare.findings.filter((f) => early.has(f.question)),
  )
}, 240_000)

test('another machine, another pin or another job asks for a plan: the judge says nothing', () => {
  expect(judged({ job: 'other', file, text, all: false })).toBeNull()
  const read = readJob(text, { file })
  if (!read.ok) throw new Error('not read')
  const tag = read.value.plugs[0]!.tag
  expect(judged({ job: 'two', file, text: changed(['choices', 'breakers', tag], '60 A'), all: false })).toBeNull()
})
