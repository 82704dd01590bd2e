import type { BoxBody } from '../../box/index.ts'
import type { Circuit, PlacedItem, PointMm, Run } from '../../job/index.ts'
import type { BuildRules, RuleSet } from '../../rules/index.ts'

/** Inside of a 20 ft standard box, as the routes read it. */
export const room = { insideAtMm: [81, 44, 170], insideMm: [5896, 2350, 2393] } as unknown as BoxBody

const build = {
  bendsBetweenPullsDeg: { value: 360, rests: { place: 'test', provenance: 'memory' } },
  racewaySupport: () => ({ value: { everyM: 3.05, fromBoxM: 0.91 }, rests: { place: 'test', provenance: 'memory' } }),
  bendRadiusM: () => ({ value: 0.1016, rests: { place: 'test', provenance: 'memory' } }),
} as unknown as BuildRules

export const rules = { build, racewayFor: () => ({ value: '1/2', steps: [] }) } as unknown as Pick<
  RuleSet,
  'build' | 'racewayFor'
>

export function item(
  id: string,
  kind: PlacedItem['kind'],
  side: PlacedItem['side'],
  [alongMm, upMm]: readonly [number, number],
  [wMm, hMm, dMm]: PointMm,
  circuits: readonly string[],
): PlacedItem {
  const [x0, y0, z0] = room.insideAtMm
  const [, widthMm, heightMm] = room.insideMm
  const size: PointMm = side === 'blind end' ? [dMm, wMm, hMm] : side === 'roof' ? [wMm, hMm, dMm] : [wMm, dMm, hMm]
  const at: PointMm =
    side === 'left'
      ? [x0 + alongMm - wMm / 2, y0 + 41, z0 + upMm - hMm / 2]
      : side === 'right'
        ? [x0 + alongMm - wMm / 2, y0 + widthMm - 41 - dMm, z0 + upMm - hMm / 2]
        : side === 'roof'
          ? [x0 + alongMm - wMm / 2, y0 + widthMm / 2 - hMm / 2, z0 + heightMm - dMm]
          : [x0 + 41, y0 + alongMm - wMm / 2, z0 + upMm - hMm / 2]
  return {
    id,
    kind,
    what: id,
    part: id,
    side,
    face: 'inside',
    atMm: at,
    sizeMm: size,
    massKg: { low: 1, high: 2, basis: 'test', told: false },
    circuits,
    hangsOn: [],
  }
}

const wire = (size: string) => ({ size, metal: 'cu' as const, insulation: 'THWN-2' })
export const run = (trade = '1/2'): Run => ({
  lengthM: 8,
  line: wire('12 AWG'),
  neutral: wire('12 AWG'),
  protective: wire('12 AWG'),
  raceway: { kind: 'EMT', trade },
  sets: 1,
})

export const circuit = (id: string, more: Partial<Circuit> = {}): Circuit =>
  ({
    id,
    legs: ['A'],
    own: null,
    run: run(),
    plugs: [id],
    cords: [],
    ways: [],
    label: id,
    outlet: '5-20R',
    connection: 'LN',
    ...more,
  }) as unknown as Circuit

/** A panel on the left wall, `count` receptacles on each long wall, a light overhead. */
export function yard(count: number, panelAtMm = 2400) {
  const ids = Array.from({ length: 2 * count }, (_, i) => `C${String(i + 1).padStart(2, '0')}`)
  const items = [
    item('panel', 'panel', 'left', [panelAtMm, 1400], [370, 900, 150], [...ids, 'light']),
    ...ids.map((id, i) => {
      const side = i % 2 === 0 ? ('left' as const) : ('right' as const)
      const k = Math.floor(i / 2)
      const step = side === 'left' ? 230 : 400
      return item(
        `receptacle ${id}`,
        'receptacle',
        side,
        [side === 'left' ? panelAtMm + 500 + k * step : 500 + k * step, 800],
        [120, 120, 54],
        [id],
      )
    }),
    item('light', 'light', 'roof', [3000, 100], [1200, 100, 80], ['light']),
  ]
  const design = {
    circuits: [...ids.map((id) => circuit(id)), circuit('light', { own: 'light', plugs: [] })],
    panel: { feed: { ...run('1-1/4') }, main: { poles: 2 } },
    transformer: null,
    fedFrom: null,
  }
  return { body: room, items, openings: [], design: design as never, rules }
}
