import {
  airFaces,
  airReasons,
  airSection,
  airWeek,
  airYearMap,
  type DrawnBox,
  hotFromC,
  type Scene,
  spellTitle,
  yearMapOf,
} from '@plugstead/drawings'
import type { AirMoment, AirSpell } from '@plugstead/engine/air'
import type { BookInput, BoxAir } from '../results.ts'
import { airOf, endWords, gearSideOf, spellWith } from './air-words.ts'

export interface AirScene {
  /** Name of its file: `air-year-map`. */
  readonly name: string
  readonly title: string
  scene(): Scene
}

/** Pictures of a box's year of air, each made when it is asked for; none where it was not run. */
export function airScenes(input: BookInput, drawn: Pick<DrawnBox, 'build' | 'body'>, widthMm: number): readonly AirScene[] {
  const air = airOf(input, drawn.build.box)
  if (air === null) return []
  const units = input.units ?? 'metric'
  const { wetterEnd, hotterEnd } = air
  const map = (): Scene =>
    airYearMap(
      yearMapOf(air, {
        widthMm,
        units,
        end: wetterEnd,
        quantity: null,
        spell: air.ends[wetterEnd].worstNight === null ? null : 0,
      }),
    )
  const { worstNight } = air.ends[wetterEnd]
  const { hottestHour } = air.ends[hotterEnd]
  const at = { input, drawn, widthMm, units } as const
  return [
    { name: 'air-year-map', title: `Air of a year, as the box that ${endWords[wetterEnd]}`, scene: map },
    ...(worstNight === null ? [] : momentScenes(worstNight.what.replace(' ', '-'), worstNight, air.ends[wetterEnd], at)),
    ...momentScenes('hottest-hour', hottestHour, air.ends[hotterEnd], at),
    ...air.shorts.map(
      (short): AirScene => ({
        name: `air-short-${short.run.replace(/[^a-z]+/g, '-')}`,
        title: `Short run: ${short.run}`,
        scene: () => airWeek({ widthMm, units, spell: short.spell, atH: null, hotC: hotFromC(short.ends[short.spellEnd].gear) }),
      }),
    ),
  ]
}

interface SceneAt {
  readonly drawn: Pick<DrawnBox, 'build' | 'body'>
  readonly widthMm: number
  readonly units: NonNullable<BookInput['units']>
}

/** How a moment came about, the days around it, and at its hour the faces and the flows. */
function momentScenes(name: string, moment: AirMoment, year: BoxAir['ends']['tight'], at: SceneAt): readonly AirScene[] {
  const { widthMm, units } = at
  const spell = spellWith(year, moment.atH)
  const reasons: AirScene = {
    name: `air-${name}-reasons`,
    title: `How the ${moment.what} came about`,
    scene: () => airReasons({ widthMm, units, moment }),
  }
  if (spell === null) return [reasons]
  const atH = moment.atH - spell.fromH
  return [
    reasons,
    {
      name: `air-${name}-week`,
      title: spellTitle(spell),
      scene: () => airWeek({ widthMm, units, spell, atH, hotC: hotFromC(year.gear) }),
    },
    ...hourScenes(name, moment.what, spell, atH, at),
  ]
}

function hourScenes(
  name: string,
  what: string,
  spell: AirSpell,
  atH: number,
  { drawn, widthMm, units }: SceneAt,
): readonly AirScene[] {
  const [lengthMm, acrossMm, heightMm] = drawn.body.insideMm
  const sizeM = { lengthM: lengthMm / 1000, widthM: acrossMm / 1000, heightM: heightMm / 1000 }
  const { air, fit } = drawn.build
  const flow = (id: string): number | null => spell.openings.find((o) => o.id === id)?.flowM3S[atH] ?? null
  return [
    {
      name: `air-${name}-faces`,
      title: `The six faces at the ${what}`,
      scene: () =>
        airFaces({
          widthMm,
          units,
          spell,
          atH,
          sizeM,
          vents: air.vents.map(({ id, side }) => ({ id, side, flowM3S: flow(id) })),
        }),
    },
    {
      name: `air-${name}-section`,
      title: `Section with flows at the ${what}`,
      scene: () => airSection({ widthMm, units, spell, atH, sizeM, air, gearSide: gearSideOf(fit.items) }),
    },
  ]
}
