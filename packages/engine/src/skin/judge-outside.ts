import type { Opening } from '../job/index.ts'
import { put, type Verdict } from '../kernel/index.ts'
import { figure } from './figures.ts'
import { type Made, made, mm, say } from './finding.ts'
import { animalsThrough, clearGapMm, reachThrough, withinReach } from './passes.ts'
import type { BoxSkin } from './result.ts'
import type { SkinView } from './view.ts'

/** Ingress protection of each way through the wall, as built here. Common practice for usual parts; the part bought says its own. */
const RATING: Readonly<Record<string, number>> = {
  'outside receptacle': 54,
  'flanged outlet': 54,
  'connector plate': 66,
  'gland plate': 66,
  vent: 23,
  fan: 23,
  door: 54,
  raceway: 54,
}
const LEAST_RATING = 23

/** Rating of the wall: that of its worst entry. */
export function tightness(view: SkinView): BoxSkin['tightness'] {
  let worst = { rating: 66, what: 'the bare wall' }
  for (const o of view.build.skin.openings) {
    const rating = ratingOf(view, o)
    if (rating < worst.rating) worst = { rating, what: o.id }
  }
  return { rating: `IP${worst.rating}`, worst: worst.what }
}

function ratingOf(view: SkinView, o: Opening): number {
  if (o.use === 'personnel door') return RATING.door!
  if (o.use === 'vent' || o.use === 'fan') return o.hood && o.meshMm !== null ? RATING.vent! : 0
  if (o.use !== 'cord exit') return RATING.raceway!
  const way = o.serves.map((plug) => view.build.skin.exitWays[plug]).find((w) => w !== undefined)
  return RATING[way ?? 'outside receptacle']!
}

export function judgeOutside(view: SkinView): readonly Made[] {
  const { openings } = view.build.skin
  const tight = tightness(view)
  return [
    made({
      code: 'skin/tightness',
      subject: view.box,
      verdict: Number(tight.rating.slice(2)) >= LEAST_RATING ? 'holds' : 'fails',
      basis: 'house',
      said: `The wall keeps out what ${tight.rating} keeps out: that of its worst entry, ${tight.worst}. Hose and light test before paint.`,
      provenance: 'common practice',
    }),
    ...openings.flatMap((o) => (clearGapMm(o) > 0 ? [pests(view, o), reach(view, o)] : [])),
    ...egress(view),
    ...fire(view),
    corrosion(view),
    plate(view),
  ]
}

function pests(view: SkinView, o: Opening): Made {
  const gap = clearGapMm(o)
  const passes = animalsThrough(gap - 1e-6)
  const rodent = passes.includes('mouse')
  return made({
    code: 'skin/pests',
    subject: `${view.box} ${o.id}`,
    verdict: rodent ? 'fails' : 'holds',
    basis: 'house',
    said:
      passes.length === 0
        ? `${o.id} leaves ${mm(gap)}: no animal of the table passes.`
        : `${o.id} leaves ${mm(gap)}: ${passes.join(', ')} pass${passes.length === 1 ? 'es' : ''}.`,
    demand: put('gap', gap, 'mm'),
    limit: put('mouse', 6, 'mm'),
    provenance: 'read',
  })
}

function reach(view: SkinView, o: Opening): Made {
  const gap = clearGapMm(o)
  const { probes, farMm } = reachThrough(gap)
  const near = withinReach(o, view.build.fit.items)
  const finger = near.filter((n) => /finger|hand|arm|person/.test(n.what))
  const verdict: Verdict = finger.length > 0 ? 'fails' : near.length > 0 ? 'tight' : 'holds'
  const what = probes.map((p) => p.what).join(', ')
  return made({
    code: 'skin/reach',
    subject: `${view.box} ${o.id}`,
    verdict,
    basis: 'house',
    said:
      near.length > 0
        ? `From outside, through ${o.id}: ${near[0]!.what} reaches ${near.map((n) => n.id).join(', ')}, ${mm(near[0]!.distanceMm)} away.`
        : `From outside, through ${o.id} (${mm(gap)}): ${what === '' ? 'nothing' : `${what}, ${mm(farMm)} deep,`} and nothing hangs within it.`,
    provenance: 'memory',
  })
}

/** Ways out: opens outward, wide enough, released from inside; a second one in a long box. */
function egress(view: SkinView): readonly Made[] {
  const rule = view.rules.build.egress
  const doors = view.build.skin.openings.filter((o) => o.use === 'personnel door')
  const lengthM = view.body.insideMm[0] / 1000
  const wide = doors.every(
    (d) => d.widthMm >= rule.value.doorWidthM * 1000 - 1e-6 && d.heightMm >= rule.value.doorHeightM * 1000 - 1e-6,
  )
  const enough = rule.value.secondAboveM === null || lengthM <= rule.value.secondAboveM || doors.length >= 1
  const verdict: Verdict = doors.length === 0 ? 'tight' : !wide || !enough ? 'fails' : 'holds'
  const said =
    doors.length === 0
      ? 'The cargo doors are the only way out and can be latched from outside: an inside release is on the list.'
      : !wide
        ? `${doors[0]!.id} is ${mm(doors[0]!.widthMm)} × ${mm(doors[0]!.heightMm)}; ${mm(rule.value.doorWidthM * 1000)} × ${mm(rule.value.doorHeightM * 1000)} are asked for.`
        : `${doors[0]!.id} opens outward with a panic bar; the cargo doors of the ${say(lengthM)} m long room are the second way, with an inside release.`
  return [
    made({
      code: 'skin/egress',
      subject: view.box,
      verdict,
      basis: 'code',
      said,
      provenance: rule.rests.provenance,
      decides: 'the fire authority',
      caution: 'Before a door is latched from outside: look inside, call, count the crew.',
    }),
  ]
}

/** Lining, extinguisher, and what stands too near the heater. */
function fire(view: SkinView): readonly Made[] {
  const { items } = view.build.fit
  const out: Made[] = []
  if (items.length > 0) {
    const has = items.some((i) => i.kind === 'extinguisher')
    out.push(
      made({
        code: 'skin/fire',
        subject: view.box,
        verdict: has ? 'holds' : 'fails',
        basis: 'house',
        said: has
          ? 'An extinguisher for electrical fires hangs inside by the door; behind the panel the wall is bare steel or cement board, never plywood.'
          : 'No extinguisher for electrical fires hangs in the box.',
        provenance: 'common practice',
        decides: 'the fire authority',
      }),
    )
  }
  const clear = figure('heater clear of anything')
  for (const heater of items.filter((i) => i.kind === 'heater')) {
    const nearest = items
      .filter((i) => i.id !== heater.id && i.kind !== 'thermostat' && i.face === 'inside')
      .map((i) => ({
        id: i.id,
        gapMm: Math.hypot(
          ...[0, 1, 2].map((k) =>
            Math.max(0, i.atMm[k]! - heater.atMm[k]! - heater.sizeMm[k]!, heater.atMm[k]! - i.atMm[k]! - i.sizeMm[k]!),
          ),
        ),
      }))
      .toSorted((a, b) => a.gapMm - b.gapMm || (a.id < b.id ? -1 : 1))[0]
    if (nearest === undefined) continue
    const verdict: Verdict = nearest.gapMm >= clear.value ? 'holds' : 'tight'
    out.push(
      made({
        code: 'skin/heater-clear',
        subject: `${view.box} ${heater.id}`,
        verdict,
        basis: 'house',
        said: `${heater.id}: ${nearest.id} hangs ${mm(nearest.gapMm)} away; ${mm(clear.value)} are kept from what can burn, less only where the maker's sheet says so.`,
        demand: put('clear', nearest.gapMm, 'mm'),
        limit: put('least', clear.value, 'mm'),
        provenance: clear.rests.provenance,
      }),
    )
  }
  return out
}

/** Salt and aluminium, zinc and paint. */
function corrosion(view: SkinView): Made {
  const told = view.job.yard.corrosivity
  const hard = told !== null && /\bC(4|5|X)\b/i.test(told)
  return made({
    code: 'skin/corrosion',
    subject: view.box,
    verdict: told === null ? 'unknown' : hard ? 'tight' : 'holds',
    basis: 'house',
    said:
      told === null
        ? 'Nobody has said how corrosive the place is.'
        : hard
          ? `${told}: hoods, frames and strut hot-dip galvanised or stainless, aluminium kept apart from steel, cut edges primed twice.`
          : `${told}: zinc-rich primer on both faces and every cut edge, then topcoat.`,
    provenance: 'common practice',
  })
}

/** Does the approval for transport stand after the cuts? */
export function plateAfter(view: SkinView): BoxSkin['plate'] {
  const large = view.build.skin.openings.some((o) => o.class === 'door' || o.railToRail || o.widthMm > 1000)
  if (view.body.plate === 'removed') return 'no plate'
  if (large) return 'void once cut'
  return view.body.plate === 'unknown' ? 'unknown' : 'stays valid'
}

function plate(view: SkinView): Made {
  const after = plateAfter(view)
  return made({
    code: 'skin/plate',
    subject: view.box,
    verdict: after === 'unknown' ? 'unknown' : after === 'void once cut' ? 'tight' : 'holds',
    basis: 'code',
    said: {
      'void once cut':
        'A door cut from rail to rail ends the approval for transport as a container: the plate comes off, the box travels as cargo.',
      'no plate': 'The approval plate is off: the box travels as cargo.',
      unknown: 'Nobody has said whether the approval plate is on; openings of this size do not touch the frame.',
      'stays valid': 'No cut touches the frame; whether the approval still holds is for its owner and the approving body.',
    }[after],
    provenance: 'read',
    decides: 'the approving body',
  })
}
