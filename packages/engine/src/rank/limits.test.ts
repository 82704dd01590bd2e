import { beforeAll, describe, expect, test } from 'vitest'
import { readModule } from '../parts/index.ts'
import { type ModelLimits, modelLimits, modelsMoved, movedOn } from './index.ts'
import { labelOf } from './papers.ts'
import { fileText, shopAt } from './shops.fixture.ts'

const shop = shopAt('shop')
const model = shop.stock!.models.find((m) => m.id === 'yard-20')!
const sheet = (id: string, change: (text: string) => string = (t) => t) => {
  const read = readModule(change(fileText(`shop/modules/${id}.yaml`)))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

let found: ModelLimits
const limit = (name: string, of = found) => of.limits.find((l) => l.name.startsWith(name))!
beforeAll(() => {
  found = modelLimits(model, shop)
}, 240_000)

describe('what a model is good for', () => {
  test('it is sound in a mild place, and every case was judged a counted number of times', () => {
    expect(found.failsMild).toEqual([])
    for (const l of found.limits) expect(l.judgedCount, l.name).toBeLessThanOrEqual(15)
    expect(found.judgedCount).toBe(3 + found.lift.length + found.limits.reduce((n, l) => n + l.judgedCount, 0) + 2)
  })

  test('a machine on a 20 A way to 80 % of it, on 30 A likewise: by hand', () => {
    // NEC 210.20(A): a continuous load asks 125 % of its device. 16 A at 120 V, 16 A and 24 A at 240 V. Provenance: memory
    expect(limit('machine on 5-20R').value).toBeCloseTo(1920, -1)
    expect(limit('machine on 6-20R').value).toBeCloseTo(3840, -1)
    expect(limit('machine on L14-30R').value).toBeCloseTo(5760, -1)
  })

  test('fault level to what its board breaks, heat to the narrower of told and measured, cold to the coldest of its modules', () => {
    expect(limit('fault level').value).toBeCloseTo(22, 0)
    expect(limit('fault level').fails).toContain('faults/built-interrupting')
    expect(limit('hottest')).toMatchObject({ value: 38, fails: ['keep/heat'] })
    // The plates were tried to -33 C: the whole box goes no further, whatever its board bears.
    expect(limit('coldest').value).toBe(-33)
  })

  test('snow no deeper than the cords’ frame less what is asked above it', () => {
    // 1.3 m to the lowest edge, 0.3 m above snow by the house rule of exits.
    expect(limit('depth of snow').value).toBeCloseTo(1, 2)
    expect(limit('depth of snow').fails).toEqual(['skin/built-exit-height'])
  })

  test('a heavier cord load reaches less far: 16 A at 120 V ends before 16 A at 240 V, by about half the volts', () => {
    const [low, high] = [limit('cord reach on 5-20R').value!, limit('cord reach on 6-20R').value!]
    expect(low).toBeLessThan(high)
    expect(high / low).toBeGreaterThan(1.7)
    expect(high / low).toBeLessThan(2.6)
  })

  test('lift: what fails is a limit in kilograms, and what is unknown names what nobody told', () => {
    const lift = Object.fromEntries(found.lift.map((l) => [l.name, l]))
    expect(lift['tilt-bed']).toMatchObject({ verdict: 'holds', missing: [] })
    // From below by crane: gear in it is allowed; the box was cut, and nobody has assessed the cut box.
    expect(lift.crane).toMatchObject({ verdict: 'unknown', codes: ['haul/plate'] })
    expect(lift.crane!.missing.join()).toMatch(/assessment of the cut box/)
    expect(lift.forks!.missing.join()).toMatch(/look under it and measure/)
    // ISO 668: a 20 ft box is rated for 30 480 kg at most. Provenance: memory. The floor of our table: 30 384 kg of the scale's 30 480 and its cords.
    expect(limit('mass, set down by forks').value).toBeGreaterThan(30_000)
    expect(limit('mass, set down by forks').value).toBeLessThanOrEqual(30_480)
    expect(limit('mass, set down by forks').fails).toContain('haul/rating')
    expect(limit('mass, set down by crane').fails).toContain('haul/sling-tension')
    for (const l of found.limits.filter((one) => one.name.startsWith('mass'))) expect(l.value!).toBeGreaterThan(found.massKg)
  })

  test('papers: each kind of installation as assess has it, a label as the marks of its parts, a building unknown by name', () => {
    expect(Object.fromEntries(found.papers.map((p) => [p.name, p.verdict]))).toEqual({
      'us, temporary installation': 'tight',
      'us, permanent installation': 'tight',
      'us, equipment: every part marked': 'holds',
      'us, building': 'unknown',
      ca: 'fails',
      intl: 'fails',
    })
    for (const p of found.papers.filter((one) => one.verdict === 'unknown')) expect(p.missing.length).toBeGreaterThan(0)
    for (const p of found.papers.filter((one) => one.name.startsWith('us'))) expect(p.decides).not.toBeNull()
  })

  test('a label rests on told marks: none told is unknown and named, one of another rule set fails', () => {
    const label = (change: (text: string) => string) =>
      labelOf(shopAt('shop', { 'modules/board-200-split.yaml': change }).stock!.models.find((m) => m.id === 'yard-20')!)[0]!
    expect(label((t) => t.replace(/\nmarks: .*\n/, '\n'))).toMatchObject({
      verdict: 'unknown',
      missing: ['marks of board-200-split'],
    })
    expect(label((t) => t.replace('rules: us', 'rules: intl'))).toMatchObject({ verdict: 'fails' })
  })
})

describe('a module that changes', { timeout: 240_000 }, () => {
  const moves = (id: string, change: (text: string) => string) => {
    const all = modelsMoved(sheet(id, change), { ...shop, stock: { ...shop.stock!, models: [model] } })
    return Object.fromEntries(all[0]!.moved.map((m) => [m.what, [m.was, m.now]]))
  }

  test('the same sheet moves nothing', () => expect(moves('board-200-split', (t) => t)).toEqual({}))

  test('a weaker board moves the fault level, and nothing of heat or snow', () => {
    const moved = moves('board-200-split', (t) => t.replace('interrupting: 22 kA', 'interrupting: 10 kA'))
    expect(Object.keys(moved)).toEqual(['fault level'])
    expect(Number.parseFloat(moved['fault level']![1]!)).toBeCloseTo(10, 0)
  })

  test('a heavier door frame moves the mass by its own, a dearer one the money by its own', () => {
    const moved = moves('door-frame', (t) => t.replace('mass: 49.2 kg', 'mass: 59.2 kg').replace('520 USD', '600 USD'))
    expect(moved.mass).toEqual([`${found.massKg} kg`, `${Math.round((found.massKg + 10) * 10) / 10} kg`])
    const [was, now] = moved['money of its modules']!.map((m) => Number.parseFloat(m))
    expect(now! - was!).toBeCloseTo(80, 6)
  })

  test('plates for more cold and a frame that sits lower move what they bear on', () => {
    expect(moves('outlet-plate', (t) => t.replace(/-3[35] C/g, '-38 C')).coldest).toEqual(['-33 C', '-38 C'])
    expect(moves('cord-frame', (t) => t.replace('1.3 m', '0.9 m'))['depth of snow']?.[1]).toMatch(/^0\.(59|6)/)
  })

  test('a module that no model uses moves none', () => {
    expect(modelsMoved({ ...sheet('strut-foot'), id: 'other' }, shop)).toEqual([])
  })

  test('a revision that moved on since a model was drawn is said', () => {
    const later = shopAt('shop', { 'modules/door-frame.yaml': (t) => t.replace('revision: D', 'revision: E') })
    expect(movedOn(later.stock!.models[0]!)).toEqual([{ what: 'door-frame', was: 'revision D', now: 'revision E' }])
    expect(movedOn(model)).toEqual([])
  })
})
