import type { BoxBody } from '../../box/index.ts'
import { type PlacedItem, stripsPath } from '../../job/index.ts'
import { judgeEnds, judgeLower, put, type Step, source, step, type Working, weakest } from '../../kernel/index.ts'
import { directLx, lampsFor, lightFigure, type Paint, roomIndex, utilisationIn } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { lookOf, middleOf, type Vector } from '../strut/axes.ts'

export interface LightInputs {
  readonly box: string
  readonly items: readonly PlacedItem[]
  readonly body: Pick<BoxBody, 'insideAtMm' | 'insideMm'>
  readonly rules: RuleSet
  /** Inside painted white; null: nobody said, taken as bare and dark. */
  readonly white: boolean | null
  /** Flux of a light as its maker prints it, lm; null or absent: by its watts. */
  readonly fluxLm?: (item: PlacedItem) => number | null
}

/** Light on the panel's face by the lumen method, and how it is switched: a plain switch always, a sensor only beside it. */
export function judgeLight(inputs: LightInputs): Judged {
  return together([levelFinding(inputs), switchFinding(inputs)])
}

const lights = (items: readonly PlacedItem[]): readonly PlacedItem[] =>
  items.filter((i) => i.kind === 'light' && i.face === 'inside')

function levelFinding({ box, items, body, rules, white, fluxLm }: LightInputs): Judged {
  const subject = `${box} light`
  const want = rules.build.panelLux
  const all = lights(items)
  if (all.length === 0)
    return judged({
      code: 'fit/light',
      subject,
      verdict: 'fails',
      basis: 'code',
      said: `No light hangs inside; ${shown(want.value)} lx are wanted on the panel's face.`,
      limit: put('E', want.value, 'lx'),
      provenance: want.rests.provenance,
    })
  const watts = lightFigure('flux-per-watt')
  const fluxes = all.map((item) => fluxLm?.(item) ?? wattsOf(item) * watts.value)
  const total = fluxes.reduce((a, b) => a + b, 0)
  if (!Number.isFinite(total))
    return judged({
      code: 'fit/light',
      subject,
      verdict: 'unknown',
      basis: 'code',
      said: 'The flux of a light is not known: neither its lumens nor its watts are said.',
      provenance: 'assumed',
    })
  const [lengthM, widthM] = [body.insideMm[0] / 1000, body.insideMm[1] / 1000]
  const task = lightFigure('task-height')
  const lowest = Math.min(...all.map((item) => item.atMm[2]))
  const aboveM = (lowest - body.insideAtMm[2] - task.value) / 1000
  if (!(aboveM > 0))
    return judged({
      code: 'fit/light',
      subject,
      verdict: 'fails',
      basis: 'physics',
      said: `The lowest light hangs ${shown(lowest - body.insideAtMm[2])} mm above the floor, under the ${task.value} mm of the face that it should light.`,
      provenance: 'computed',
    })
  const index = roomIndex({ lengthM, widthM, aboveM })
  const mf = lightFigure('maintenance')
  const areaM2 = lengthM * widthM
  const painted = (paint: Paint) => {
    const uf = utilisationIn(paint, { lengthM, widthM, aboveM })
    const level = (total * uf.factor * mf.value) / areaM2
    return {
      paint,
      uf,
      level,
      verdict: uf.belowTable && level >= want.value ? ('tight' as const) : judgeLower(level, want.value),
    }
  }
  const taken = painted(white === true ? 'white' : 'bare')
  const { paint, uf, level } = taken
  // Nobody said what the walls look like: where white would do and bare would not, nobody knows.
  const other = white === null ? painted('white') : taken
  const needed = lampsFor({
    levelLx: want.value,
    areaM2,
    fluxLm: total / all.length,
    utilisation: uf.factor,
    maintenance: mf.value,
  })
  const wanted = Math.ceil(needed - 1e-9)
  const verdict = judgeEnds(taken.verdict, other.verdict)
  const working: Working = {
    id: `${box} light/level`,
    title: "Light at the height of the panel's face",
    steps: [
      step('h', 'lights above the height that is read', [put('task', task.value, 'mm')], aboveM, 'm', task.rests),
      step('K', 'L·W/(h·(L + W))', [put('L', lengthM, 'm'), put('W', widthM, 'm')], index, '', source('lumen method', 'read')),
      step(
        'UF',
        `${paint === 'white' ? 'white-painted' : 'bare, dark'} inside, between columns on a line`,
        [put('K', index)],
        uf.factor,
        '',
        uf.rests,
      ),
      step('MF', 'maintenance factor', [], mf.value, '', mf.rests),
      step('F', `${all.length} lights`, [put('lm/W', watts.value)], total, 'lm', watts.rests),
      step('E', 'F·UF·MF/A', [put('A', areaM2, 'm²')], level, 'lx', source('lumen method', 'read')),
      step('N', 'lights of this flux that are wanted, not rounded', [], needed, '', source('lumen method', 'read')),
    ],
    judgement: {
      demand: put('E', level, 'lx'),
      relation: '≥',
      limit: put('E wanted', want.value, 'lx'),
      tight: '10 %',
      rests: want.rests,
    },
    crossCheck: directSteps(items, all, fluxes, mf.value),
    notes: [
      ...(uf.belowTable
        ? [
            `The room index lies under ${lightFigure('least-index').value}, the first column of the table: the light may be less than this.`,
          ]
        : []),
      'The lumen method gives the mean at this height; the lines beside it what falls straight on an upright face, without what walls throw back.',
    ],
  }
  return judged(
    {
      code: 'fit/light',
      subject,
      verdict,
      basis: 'house',
      said: `${all.length} lights give ${shown(level)} lx at the height of the panel's face${white === null ? ` between bare dark walls and ${shown(other.level)} lx between white ones` : ''}; ${shown(want.value)} lx are wanted, which takes ${wanted}${white === null ? ' if bare' : ''}.${uf.belowTable ? ' The room is too narrow for the table: the light may be less.' : ''}`,
      demand: put('E', level, 'lx'),
      limit: put('E wanted', want.value, 'lx'),
      provenance: weakest(want.rests.provenance, watts.rests.provenance),
      mends:
        verdict === 'fails' || verdict === 'unknown'
          ? [{ path: stripsPath(box), value: wanted, words: `${wanted} strips of light, ${wanted - all.length} more` }]
          : [],
      assumed: white === null ? [`boxes.${box}.paint`] : [],
      caution: 'A light on a battery that is rated for the cold stands at the way out.',
    },
    working,
  )
}

/** Watts are the last number in the part's name. */
function wattsOf(item: PlacedItem): number {
  const found = /(\d+(?:\.\d+)?)$/.exec(item.part)?.[1]
  return found === undefined ? Number.NaN : Number(found)
}

function directSteps(
  items: readonly PlacedItem[],
  all: readonly PlacedItem[],
  fluxes: readonly number[],
  mf: number,
): readonly Step[] {
  return items
    .filter((i) => i.kind === 'panel' && i.face === 'inside')
    .map((panel) => {
      const look = lookOf(panel.side, panel.face)
      const face: [number, number, number] = [...middleOf(panel.atMm, panel.sizeMm)]
      face[look.axis] += (look.sign * panel.sizeMm[look.axis]) / 2
      const facing: [number, number, number] = [0, 0, 0]
      facing[look.axis] = look.sign
      const lamps = all.map((item, i) => ({ at: inM(middleOf(item.atMm, item.sizeMm)), fluxLm: (fluxes[i] as number) * mf }))
      return step(
        'Ev',
        `straight on the face of ${panel.id}, Σ Φ·MF/π·cosα·cosβ/d²`,
        [],
        directLx({ at: inM(face), facing, lamps }),
        'lx',
        source('point method with a cosine emitter', 'computed'),
      )
    })
}

const inM = (p: Vector): Vector => [p[0] / 1000, p[1] / 1000, p[2] / 1000]

function switchFinding({ box, items, rules }: LightInputs): Judged {
  const inside = items.filter((i) => i.face === 'inside')
  const switches = inside.filter((i) => i.kind === 'light switch').length
  const sensors = inside.filter((i) => i.kind === 'light sensor').length
  const alone = rules.build.sensorAloneAllowed
  const fine = switches > 0 || (sensors > 0 && alone.value)
  return judged({
    code: 'fit/light-switch',
    subject: `${box} light`,
    verdict: fine ? 'holds' : 'fails',
    basis: 'code',
    said: fine
      ? `The light has ${switches} plain switch(es)${sensors > 0 ? ` beside ${sensors} sensor(s)` : ''}: it never hangs on a sensor alone.`
      : sensors > 0
        ? 'Only a sensor switches the light: who works before live gear and stands still would stand in the dark.'
        : 'Nothing switches the light.',
    provenance: alone.rests.provenance,
    confirm: true,
  })
}
