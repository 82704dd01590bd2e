import { PADS } from '../box/index.ts'
import type { Circuit, Opening } from '../job/index.ts'
import { judgeLower, put, type Verdict, type Working } from '../kernel/index.ts'
import { coresOf } from './cord-exits.ts'
import { cordOutsideMm, ENTRIES, entryFor } from './entry.ts'
import { figure } from './figures.ts'
import { type Made, made, mm, say } from './finding.ts'
import { onSide } from './opening.ts'
import type { ExitRow } from './result.ts'
import type { SkinJob, SkinView } from './view.ts'

const AUTHORITY = 'the authority having jurisdiction'

interface Leaving {
  readonly plug: string
  readonly circuit: Circuit
  readonly opening: Opening | null
}

/** Every cord of its own, with the opening it leaves by. */
function leaving(view: SkinView): readonly Leaving[] {
  const seen = new Map<string, Leaving>()
  for (const design of view.designs)
    for (const circuit of design.circuits)
      for (const plug of circuit.plugs) {
        if (seen.has(plug) || circuit.cords.find((c) => c.plug === plug)?.sharedWith !== undefined) continue
        seen.set(plug, { plug, circuit, opening: view.build.skin.openings.find((o) => o.serves.includes(plug)) ?? null })
      }
  return [...seen.values()].toSorted((a, b) => (a.plug < b.plug ? -1 : 1))
}

export function exitRows(view: SkinView): readonly ExitRow[] {
  return leaving(view).map(({ plug, opening }) => {
    const way = view.build.skin.exitWays[plug] ?? 'outside receptacle'
    const entry = opening?.plate?.entries.find((e) => e.plug === plug) ?? null
    return {
      plug,
      way,
      allowed: view.rules.build.cordThroughWall(way).value.allowed,
      opening: opening?.id ?? 'none',
      thread: entry?.thread ?? null,
      cordMm: entry?.cordMm ?? null,
      aboveGroundMm: opening === null ? 0 : aboveGroundMm(opening),
    }
  })
}

/** Lower edge of an opening above the ground, on its pads. */
export const aboveGroundMm = (o: Opening): number => onSide(o).lowMm + PADS.leastAirMm

export function judgeExits(view: SkinView): readonly Made[] {
  return leaving(view).flatMap((l) => [...exits(view, l), ...glands(view, l)])
}

function exits(view: SkinView, { plug, circuit, opening }: Leaving): readonly Made[] {
  const subject = `${view.box} ${plug}`
  const way = view.build.skin.exitWays[plug]
  const cord = circuit.cords.find((c) => c.plug === plug)
  // A cord whose thickness nobody knows gets its entry when it was measured: `skin/gland` says so.
  const measured =
    way === 'outside receptacle' ||
    way === 'flanged outlet' ||
    (cord !== undefined && cordOutsideMm(cord.size, coresOf(circuit)) !== null)
  if (way === undefined || (opening === null && cord !== undefined && measured))
    return [
      made({
        code: 'skin/exit-missing',
        subject,
        verdict: 'fails',
        basis: 'physics',
        said: `No opening is left for the cord of ${plug}: the walls beside the gear are full.`,
        provenance: 'computed',
        mends: [
          {
            path: `skin.${view.box}.way`,
            value: 'gland plate',
            words: 'cords through framed plates instead of outside receptacles',
          },
        ],
      }),
    ]
  if (opening === null) return []
  const rule = view.rules.build.cordThroughWall(way)
  const verdict: Verdict = rule.value.allowed === 'yes' ? 'holds' : rule.value.allowed === 'no' ? 'fails' : 'unknown'
  const said =
    rule.value.allowed === 'with written acceptance'
      ? `${plug} leaves by a ${way}: ${rule.value.said}. Nobody has said that it was accepted in writing.`
      : `${plug} leaves by ${way === 'outside receptacle' ? 'an' : 'a'} ${way}: ${rule.value.said}.`
  return [
    made({
      code: 'skin/cord-rule',
      subject,
      verdict,
      basis: 'code',
      said,
      provenance: rule.rests.provenance,
      decides: AUTHORITY,
    }),
  ]
}

function glands(view: SkinView, { plug, circuit, opening }: Leaving): readonly Made[] {
  const way = view.build.skin.exitWays[plug]
  const cord = circuit.cords.find((c) => c.plug === plug)
  if ((way !== 'gland plate' && way !== 'connector plate') || cord === undefined) return []
  const subject = `${view.box} ${plug}`
  const outside = cordOutsideMm(cord.size, coresOf(circuit))
  if (outside === null)
    return [
      made({
        code: 'skin/gland',
        subject,
        verdict: 'unknown',
        basis: 'house',
        said: `No table has the diameter of ${cord.size} with ${coresOf(circuit)} cores: measure the cord of ${plug}.`,
        provenance: 'memory',
      }),
    ]
  const found = entryFor(outside)
  const entry = opening?.plate?.entries.find((e) => e.plug === plug) ?? null
  const takes = entry === null ? undefined : ENTRIES.find((e) => e.thread === entry.thread)
  const holds = takes !== undefined && takes.leastMm <= outside.low && outside.high <= takes.mostMm
  const widest = ENTRIES[ENTRIES.length - 1]!
  const working: Working = { id: `${subject}/gland`, title: `Gland for the cord of ${plug}`, steps: found.steps }
  const ends = `${say(outside.low)} to ${say(outside.high)} mm`
  return [
    made(
      {
        code: 'skin/gland',
        subject,
        verdict: holds ? 'holds' : 'fails',
        basis: 'maker',
        said: holds
          ? `The cord of ${plug}, ${ends}, is clamped by ${takes.thread}, ${takes.leastMm} to ${takes.mostMm} mm.`
          : found.value.chosen === null
            ? `The cord of ${plug} is ${ends} thick; the widest gland clamps ${widest.mostMm} mm.`
            : `The cord of ${plug} is ${ends} thick; its entry ${entry?.thread ?? 'is missing'} does not clamp it, ${found.value.chosen.thread} would.`,
        demand: put('od', outside.high, 'mm'),
        limit: put('most', takes?.mostMm ?? widest.mostMm, 'mm'),
        provenance: 'memory',
        caution: 'Choose the gland by the cord in the hand.',
      },
      working,
    ),
  ]
}

/** Exits and vents against ground and snow; the box that stands by what was told of it. */
export function judgeHeights(view: SkinView): readonly Made[] {
  const openings = view.build.skin.openings.filter((o) => o.use === 'cord exit' || o.use === 'vent' || o.use === 'fan')
  return [...openings.map((o) => height(view, o)), ...builtHeight(view.job, view.box)]
}

function height(view: SkinView, o: Opening): Made {
  const subject = `${view.box} ${o.id}`
  const receptacle = o.use === 'cord exit' && o.plate === null
  const aboveGround = figure(receptacle ? 'outside receptacle above ground' : 'cord exit above ground or snow')
  const up = receptacle ? (onSide(o).lowMm + onSide(o).highMm) / 2 + PADS.leastAirMm : aboveGroundMm(o)
  const { depthM } = view.job.yard.snow
  const least = Math.max(aboveGround.value, depthM === null ? 0 : depthM * 1000 + figure('cord exit above ground or snow').value)
  const ploughed = view.job.pins.some((p) => p.path === `skin.${view.box}.ploughed` && p.value === true)
  const open = judgeLower(up, aboveGround.value, 0)
  const snowed = judgeLower(up, least, 0) === 'fails'
  const verdict: Verdict = open === 'fails' ? 'fails' : depthM === null || (snowed && !ploughed) ? 'unknown' : 'holds'
  const said =
    open === 'fails'
      ? `${o.id} is ${mm(up)} above the ground; ${mm(aboveGround.value)} are asked for.`
      : depthM === null
        ? `${o.id} is ${mm(up)} above the ground; nobody has said how deep snow lies.`
        : snowed
          ? ploughed
            ? `${o.id} is ${mm(up)} up and snow lies ${say(depthM)} m deep: it stands on a lane that is kept ploughed.`
            : `${o.id} is ${mm(up)} up and snow lies ${say(depthM)} m deep: nobody has said that the lane beside it is kept ploughed.`
          : `${o.id} is ${mm(up)} above the ground, ${mm(up - (depthM ?? 0) * 1000)} above the deepest snow.`
  return made({
    code: 'skin/exit-height',
    subject,
    verdict,
    basis: 'house',
    said,
    demand: put('up', up, 'mm'),
    limit: put('least', least, 'mm'),
    provenance: aboveGround.rests.provenance,
    mends:
      snowed && !ploughed
        ? [{ path: `skin.${view.box}.ploughed`, value: true, words: 'the lane on the cord side is kept ploughed' }]
        : [],
    ...(snowed && ploughed ? { decides: 'the site owner, who ploughs' } : {}),
  })
}

/** Where the lowest cord left the box that stands: told, whether or not a build was worked out. */
export function builtHeight(job: SkinJob, box: string): readonly Made[] {
  const lowest = job.builtBody?.lowestExitM ?? null
  const { depthM } = job.yard.snow
  if (lowest === null || depthM === null) return []
  const least = depthM + figure('cord exit above ground or snow').value / 1000
  const verdict = judgeLower(lowest, least, 0)
  return [
    made({
      code: 'skin/built-exit-height',
      subject: box,
      verdict,
      basis: 'house',
      said: `As built, the lowest cord exit is ${say(lowest)} m up; snow lies ${say(depthM)} m deep and ${say(least)} m are asked for.`,
      demand: put('up', lowest, 'm'),
      limit: put('least', least, 'm'),
      provenance: 'told',
    }),
  ]
}
