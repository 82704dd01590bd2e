import { airFaces, airReasons, airSection, airWeek, hotFromC, spellTitle } from '@plugstead/drawings'
import type { AirEnd, AirSpell, DripEvent, GearHours } from '@plugstead/engine/air'
import { SIDES } from '@plugstead/engine/job'
import type { Finding } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BoxAir } from '../results.ts'
import { col, plain, right } from '../words.ts'
import { type AirAt, sheet } from './air-sheet.ts'
import { ENDS, endHead, endWords, faceOf, gearSideOf, litres, spellWith, tenths, whole } from './air-words.ts'
import { cautionBlocks, judgedBlocks, SIDE_WORDS } from './built.ts'

type Year = BoxAir['ends'][AirEnd]

/** How the worst night, or the wettest hours, came about, the week around it, and faces and flows at its hour. */
export function nightSheets(air: BoxAir, at: AirAt): readonly Sheet[] {
  const year = air.ends[air.wetterEnd]
  const { worstNight } = year
  if (worstNight === null)
    return [
      sheet(
        at.box,
        'The wettest hours',
        endHead(air, air.wetterEnd),
        [{ k: 'para', text: 'Nothing froze or settled under the roof in the whole year.' }, faceTable(year)],
        ['customer'],
      ),
    ]
  const spell = spellWith(year, worstNight.atH)
  const sub = `${worstNight.when}; ${endHead(air, air.wetterEnd)}`
  return [
    sheet(
      at.box,
      `The ${worstNight.what}`,
      sub,
      [
        { k: 'drawing', scene: airReasons({ widthMm: at.widthMm, units: at.units, moment: worstNight }) },
        ...dripBlocks(year),
        { k: 'head', text: 'How wet each face was, over the year' },
        faceTable(year),
      ],
      ['customer'],
    ),
    ...(spell === null ? [] : weekSheets(spell, worstNight.atH, year, at, sub)),
    ...(spell === null ? [] : [hourSheet(spell, worstNight.atH, at, sub)]),
  ]
}

/** The hottest hour, the hours of each kind of gear beyond what it stands, and the week around it. */
export function hotSheets(air: BoxAir, at: AirAt): readonly Sheet[] {
  const end = air.hotterEnd
  const year = air.ends[end]
  const { hottestHour } = year
  const sub = `${hottestHour.when}; as the box that ${endWords[end]}, the hotter of the two ends`
  const spell = spellWith(year, hottestHour.atH)
  return [
    sheet(
      at.box,
      'The hottest hour',
      sub,
      [{ k: 'drawing', scene: airReasons({ widthMm: at.widthMm, units: at.units, moment: hottestHour }) }, ...gearBlocks(air)],
      ['electrician', 'customer'],
    ),
    ...(spell === null ? [] : weekSheets(spell, hottestHour.atH, year, at, sub)),
  ]
}

/** Spells beside the year: what each showed at both ends, and its hours at the worse one. */
export function shortSheets(air: BoxAir, at: AirAt, findings: readonly Finding[]): readonly Sheet[] {
  if (air.shorts.length === 0) return []
  const rows: readonly (readonly [string, (of: BoxAir['shorts'][number]['ends'][AirEnd]) => Inline])[] = [
    ['hottest air', (e) => tenths(e.counts.airMostC, '°C')],
    ['coldest air', (e) => tenths(e.counts.airLeastC, '°C')],
    ['most under the roof', (e) => whole(e.counts.faces.find((f) => f.side === 'roof')?.mostGPerM2 ?? Number.NaN, 'g/m²')],
    ['falls', (e) => litres(e.counts.fellKg)],
    ['on gear without a hood', (e) => litres(e.counts.fellOnGearKg)],
    ['water on the gear', (e) => `${whole(e.counts.gearDewH, 'h')}, ${tenths(e.counts.gearDewMostGPerM2, 'g/m²')}`],
  ]
  return [
    sheet(
      at.box,
      'Short runs beside the year',
      'what a usual year may not hold; not counted into it',
      [
        ...cautionBlocks(findings),
        {
          ...{ k: 'table', small: true },
          columns: [col('run', -1), col('end', 20), ...rows.map(([words]) => right(words, 21))],
          rows: air.shorts.flatMap((short) =>
            ENDS.map((end): Inline[] => [
              end === 'tight' ? [['b', short.run]] : '',
              endWords[end],
              ...rows.map(([, of]) => of(short.ends[end])),
            ]),
          ),
        },
        ...judgedBlocks(at.box, findings),
      ],
      ['customer'],
    ),
    ...air.shorts.flatMap((short) =>
      short.spell.hoursCount === 0
        ? []
        : [
            sheet(
              at.box,
              `Short run: ${short.run}`,
              `as the box that ${endWords[short.spellEnd]}`,
              [
                { k: 'para', text: plain(short.said) },
                weekBlock(short.spell, null, hotFromC(short.ends[short.spellEnd].gear), at),
              ],
              [],
            ),
          ],
    ),
  ]
}

const LEGEND =
  'Dotted: outside. Thin: underside of the roof; hatched where it is below the dew point (chain). Heavy: air inside. Heavy and broken: the gear. Below: what hangs under the roof, frost in dots, and strokes where it falls; sun and wind; heater and fan, black while they run.'

const weekBlock = (spell: AirSpell, atH: number | null, hotC: number | null, { widthMm, units }: AirAt): Block => ({
  k: 'drawing',
  scene: airWeek({ widthMm, units, spell, atH: atH === null ? null : atH - spell.fromH, hotC }),
})

function weekSheets(spell: AirSpell, atH: number, year: Year, at: AirAt, sub: string): readonly Sheet[] {
  return [
    sheet(
      at.box,
      upper(spellTitle(spell)),
      sub,
      [weekBlock(spell, atH, hotFromC(year.gear), at), { k: 'para', small: true, text: LEGEND }],
      ['customer'],
    ),
  ]
}

const upper = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`

/** Inside measures of a box; null where it is not drawn. */
function sizeOf({
  box,
}: Pick<AirAt, 'box'>): { readonly lengthM: number; readonly widthM: number; readonly heightM: number } | null {
  if (box.body === null) return null
  const [lengthMm, widthMm, heightMm] = box.body.insideMm
  return { lengthM: lengthMm / 1000, widthM: widthMm / 1000, heightM: heightMm / 1000 }
}

function hourSheet(spell: AirSpell, runH: number, at: AirAt, sub: string): Sheet {
  const sizeM = sizeOf(at)
  const atH = runH - spell.fromH
  const { widthMm, units } = at
  const { air, fit } = at.box.build
  const flow = (id: string): number | null => spell.openings.find((o) => o.id === id)?.flowM3S[atH] ?? null
  return sheet(
    at.box,
    'Faces and flows at that hour',
    sub,
    [
      ...(sizeM === null
        ? []
        : ([
            {
              k: 'drawing',
              scene: airFaces({
                ...{ widthMm, units, spell, atH, sizeM },
                vents: air.vents.map(({ id, side }) => ({ id, side, flowM3S: flow(id) })),
              }),
            },
            {
              k: 'drawing',
              scene: airSection({ widthMm, units, spell, atH, sizeM, air, gearSide: gearSideOf(fit.items), mostMm: SECTION_MM }),
            },
          ] as const)),
      { k: 'head', text: 'The same in figures' },
      hourTable(spell, atH),
    ],
    [],
  )
}
/** Height of the box in section that leaves room for the faces above it. */
const SECTION_MM = 52

const hourTable = (spell: AirSpell, h: number): Block => ({
  ...{ k: 'table', small: true },
  columns: [
    col('face', -1),
    ...['inside, °C', 'outside, °C', 'water and frost, g/m²', 'of it frost, g/m²', 'falls in the hour, g'].map((t) =>
      right(t, 26),
    ),
  ],
  rows: SIDES.map((side): Inline[] => {
    const f = spell.faces[side]
    return [
      SIDE_WORDS[side],
      ...[f.insideC[h], f.outsideC[h], f.filmGPerM2[h], f.frostGPerM2[h]].map((v) => tenths(v ?? Number.NaN, '')),
      whole(f.fellG[h] ?? Number.NaN, ''),
    ]
  }),
})

const faceTable = (year: Year): Block => ({
  ...{ k: 'table', small: true },
  columns: [
    col('face', -1),
    ...['wet, h', 'frosted, h', 'nights of frost', 'most, g/m²', 'most on bare steel, g/m²', 'falls or runs off, l'].map((t) =>
      right(t, 22),
    ),
  ],
  rows: SIDES.map((side): Inline[] => {
    const f = faceOf(year, side)
    return [
      SIDE_WORDS[side],
      ...[f.wetH, f.frostH, f.frostNightsCount, f.mostGPerM2, f.bareMostGPerM2].map((v) => whole(v, '')),
      tenths(f.fellKg, ''),
    ]
  }),
})

/** When water fell, from what and on what: the largest, by time. */
function dripBlocks(year: Year): readonly Block[] {
  if (year.drips.length === 0) return [{ k: 'para', text: 'Nothing falls in the whole year.' }]
  const told = year.drips
    .toSorted((a, b) => b.fellKg - a.fellKg || a.atH - b.atH)
    .slice(0, DRIPS_TOLD)
    .toSorted((a, b) => a.atH - b.atH)
  return [
    {
      ...{ k: 'head', text: 'When water falls' },
      note:
        told.length < year.counts.dripEventsCount
          ? `the ${told.length} largest of ${whole(year.counts.dripEventsCount, '')} times`
          : '',
    },
    {
      ...{ k: 'table', small: true },
      columns: [
        col('from', 34),
        right('hours', 12),
        col('face', 24),
        right('falls', 16),
        right('hung, g/m²', 17),
        col('was', 14),
        col('on what', -1),
      ],
      rows: told.map((d): Inline[] => [
        ...[
          d.when,
          String(d.hoursCount),
          SIDE_WORDS[d.side],
          litres(d.fellKg),
          whole(d.hungGPerM2, ''),
          d.fromFrost ? 'frost' : 'dew',
        ],
        landsWords(d),
      ]),
    },
  ]
}
const DRIPS_TOLD = 8

/** The things that catch the most by name, the others by number. */
function landsWords(d: DripEvent): string {
  const lands = d.on.filter((o) => o.landsKg > 0).toSorted((a, b) => b.landsKg - a.landsKg)
  const [named, others] = [lands.slice(0, NAMED), lands.slice(NAMED)]
  return [
    ...named.map((o) => `${litres(o.landsKg)} on ${o.hooded ? `the hood over ${o.id}` : o.id}`),
    ...(others.length === 0
      ? []
      : [
          `${litres(others.reduce((sum, o) => sum + o.landsKg, 0))} on ${others.length} more${others.some((o) => !o.hooded) ? ' without a hood' : ''}`,
        ]),
    'the rest on the floor',
  ].join('; ')
}
const NAMED = 3

/** Hours of each kind of gear beyond what it stands, at both ends. */
function gearBlocks(air: BoxAir): readonly Block[] {
  const kinds = air.ends.tight.gear
  if (kinds.length === 0) return []
  const limit = (c: number | null): string => (c === null ? '–' : tenths(c, ''))
  const both = (i: number, of: (g: GearHours) => number, words: (v: number) => string): string => {
    const all = ENDS.flatMap((end) => {
      const g = air.ends[end].gear[i]
      return g === undefined ? [] : [of(g)]
    })
    const [low, high] = [words(Math.min(...all)), words(Math.max(...all))]
    return low === high ? low : `${low} … ${high}`
  }
  return [
    { k: 'head', text: 'What the gear stands, and what it gets', note: 'air at it, at both ends' },
    {
      ...{ k: 'table', small: true },
      columns: [
        col('gear', -1),
        ...['least, °C', 'most, °C', '24 h most, °C'].map((t) => right(t, 14)),
        ...['coldest, °C', 'hottest, °C', 'hottest 24 h, °C', 'too cold, h', 'too hot, h'].map((t) => right(t, 21)),
      ],
      rows: kinds.map((g, i): Inline[] => [
        g.what,
        ...[g.leastC, g.mostC, g.dayMeanMostC].map(limit),
        ...[(x: GearHours) => x.coldestC, (x: GearHours) => x.hottestC, (x: GearHours) => x.dayMeanC].map((of) =>
          both(i, of, (v) => tenths(v, '')),
        ),
        g.leastC === null
          ? '–'
          : both(
              i,
              (x) => x.belowH,
              (v) => whole(v, ''),
            ),
        g.mostC === null
          ? '–'
          : both(
              i,
              (x) => x.aboveH,
              (v) => whole(v, ''),
            ),
      ]),
    },
  ]
}
