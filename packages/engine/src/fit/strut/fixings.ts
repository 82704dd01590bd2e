import type { Fixing } from '../../job/index.ts'
import { judgeUpper, put, type Step, source, step, type Verdict, type Working } from '../../kernel/index.ts'
import { ecBolt, ecBoltBearing } from '../fasteners/bolt.ts'
import { sheetBearing, sheetPullOver } from '../fasteners/screw.ts'
import { weldToLay } from '../fasteners/weld.ts'
import { type Judged, judged, shown } from '../judged.ts'
import { fastenerFigure, strutFigure } from '../shelf.ts'
import type { Vector } from './axes.ts'
import type { Frame, Member } from './frame.ts'
import type { HungInputs } from './inputs.ts'
import { NUT_BOLTS, nutLimits, nutUse } from './nuts.ts'
import { worstAnd } from './worst.ts'

interface Held {
  readonly member: Member
  readonly fixing: Fixing
  readonly case: string
  /** Share used; null: cannot be judged, and why. */
  readonly use: number | null
  readonly why: string
  readonly what: string
  /** Written out only for the fixing that is shown. */
  readonly steps: () => readonly Step[]
}

/** Every fixing in its hardest case: weld to lay, bolt in sheet, channel nut. Never a bolt through the roof. */
export function judgeFixings(inputs: HungInputs, frame: Frame): Judged {
  const all = [...frame.states].flatMap(([id, states]) => {
    const member = frame.members.get(id) as Member
    return member.supports.map(({ fixing }, k) =>
      states
        .map((state) => heldBy(inputs, member, fixing, state.case.name, state.reactionsN[k] as Vector))
        .reduce((a, b) => ((b.use ?? Infinity) > (a.use ?? Infinity) ? b : a)),
    )
  })
  return worstAnd(
    all,
    verdictOf,
    (one) => one.use ?? Infinity,
    (one, whole) => {
      const { member, use } = one
      const subject = whole ? `${inputs.box} fixings` : `${inputs.box} ${member.piece.id}`
      const at = `${member.piece.id} at ${one.fixing.atMm.map((x) => shown(x, 4)).join(', ')} mm`
      const working: Working = {
        id: `${inputs.box} ${member.piece.id}/fixing ${one.fixing.atMm.map((x) => Math.round(x)).join(' ')}`,
        title: `Fixing of ${at}: ${one.fixing.how}`,
        steps: one.steps(),
        ...(use === null
          ? {}
          : {
              judgement: {
                demand: put('use', use),
                relation: '≤',
                limit: put('most', 1),
                tight: '10 %',
                rests: source('of each of its ways to fail', 'computed'),
              },
            }),
      }
      return judged(
        {
          code: 'fit/strut-fixings',
          subject,
          verdict: verdictOf(one),
          basis: 'physics',
          said:
            use === null
              ? `${at}: ${one.why}`
              : `${whole ? `Worst of ${all.length} fixings: ` : ''}${at}, ${one.what}, uses ${shown(use * 100)} % in the case ${one.case}.`,
          ...(use === null ? {} : { demand: put('use', use), limit: put('most', 1) }),
          provenance: 'memory',
          confirm: true,
          caution:
            'No screw and no drill in a wall with a power cable behind it; no hole in the roof. A welder works cold and earthed, and the coating is mended on both faces.',
        },
        working,
      )
    },
  )
}

const verdictOf = (one: Held): Verdict =>
  one.use === null ? (one.why.startsWith('no bolt goes') ? 'fails' : 'unknown') : judgeUpper(one.use, 1)

function heldBy(inputs: HungInputs, member: Member, fixing: Fixing, inCase: string, force: Vector): Held {
  const { axes } = member
  const shearN = Math.hypot(force[axes.along], force[axes.across])
  const pullN = Math.max(0, force[axes.look] * axes.lookSign)
  const forces = () => [
    step('V', `along the wall, ${inCase}`, [], shearN, 'N', source('reaction of the beam on its fixings', 'computed')),
    step('T', 'away from the wall', [], pullN, 'N', source('reaction of the beam on its fixings', 'computed')),
  ]
  const held = { member, fixing, case: inCase, why: '' }
  if (fixing.how === 'channel nut') {
    const at = fixing.atMm[axes.along]
    const inLastInch = Math.min(at - axes.fromMm, axes.toMm - at) < strutFigure('end-of-channel').value - 1e-9
    const tries = NUT_BOLTS.flatMap((bolt) => {
      const limits = nutLimits({ bolt, section: member.section, inLastInch })
      return limits === null ? [] : [{ bolt, limits, use: nutUse({ slipN: shearN, pullN }, limits) }]
    })
    const best = tries.find((one) => one.use <= 1) ?? tries[tries.length - 1]
    if (best === undefined)
      return {
        ...held,
        use: null,
        why: `nobody prints what a nut holds in ${member.section.metal === 'steel' ? 'so thin a channel' : 'aluminium channel'}.`,
        what: 'channel nut',
        steps: forces,
      }
    const { bolt, limits, use } = best
    return {
      ...held,
      use,
      what: `a nut with a ${bolt} bolt at ${shown(limits.torqueNm)} N·m`,
      steps: () => [
        ...forces(),
        step('slip allowed', `${bolt} bolt, safety of 3, half in the last inch`, [], limits.slipN, 'N', limits.rests),
        step('pull allowed', `${bolt} bolt, safety of 3, half in the last inch`, [], limits.pullN, 'N', limits.rests),
        step('use', 'V/slip allowed + T/pull allowed', [], use, '', source('linear interaction', 'common practice')),
      ],
    }
  }
  if (fixing.how === 'bolt through flat') return bolted(inputs, held, forces, shearN, pullN)
  if (fixing.how === 'bolt to pad') return studded(inputs, held, forces, shearN, pullN)
  if (member.section.metal !== 'steel')
    return {
      ...held,
      use: null,
      why: `no bolt goes where ${fixing.how} is asked: aluminium is not welded to steel.`,
      what: 'weld',
      steps: forces,
    }
  return welded(held, forces, Math.hypot(...force), thinnerMm(inputs, member, fixing))
}

type Start = Pick<Held, 'member' | 'fixing' | 'case' | 'why'>

/** Thinner of what is welded: the channel, and under a pad the sheet that the pad sits on, as thin as sheets come where nobody knows it. */
function thinnerMm(inputs: HungInputs, { section, piece }: Member, fixing: Fixing): number {
  const channelMm = section.thicknessM * 1000
  return fixing.how === 'weld to pad' ? Math.min(channelMm, sheetMm(inputs, piece)) : channelMm
}

/** Sheet of the side that a piece stands on, as thin as sheets come where nobody knows it. */
const sheetMm = ({ body }: HungInputs, piece: Member['piece']): number =>
  body.sides[piece.side].corrugation?.thicknessMm ?? fastenerFigure('thinnest-sheet').value

function welded(held: Start, forces: () => readonly Step[], forceN: number, thinMm: number): Held {
  const factor = fastenerFigure('load-factor')
  const runs = 2
  const lay = weldToLay({ designForceN: factor.value * forceN, thinnerMm: thinMm, runs })
  const roomMm = held.member.section.widthM * 1000
  const use = lay.runMm / roomMm
  const steps = () => [
    step('Fd', `${factor.value}·√(V² + T²)`, [], factor.value * forceN, 'N', factor.rests),
    step('a', '0.7 of the thinner part', [put('t', thinMm, 'mm')], lay.throatMm, 'mm', fastenerFigure('throat').rests),
    step('q', 'a·fu/(√3·βw·γM2)', [], lay.perMmN, 'N/mm', fastenerFigure('gamma-m2').rests),
    step('l', 'each of two runs: Fd/(2q) and a throat at both ends', [], lay.runMm, 'mm', source('EN 1993-1-8, 4.5.1', 'memory')),
    step('room', 'width of the channel', [], roomMm, 'mm', held.member.section.rests),
  ]
  return {
    ...held,
    use,
    what: `two fillets of ${shown(Math.max(lay.runMm, LEAST_RUN_MM), 2)} mm with a throat of ${shown(lay.throatMm, 2)} mm`,
    steps: () => [...forces(), ...steps()],
  }
}

/** Shortest fillet anybody lays on a foot. Common practice. */
const LEAST_RUN_MM = 30

/** A stud on a welded pad through the back of the channel: pad on its sheet, stud, and what the stud tears of the channel. */
function studded(inputs: HungInputs, held: Start, forces: () => readonly Step[], shearN: number, pullN: number): Held {
  const { section, piece } = held.member
  const factor = fastenerFigure('load-factor')
  const [d, washer, pad] = [fastenerFigure('bolt-d'), fastenerFigure('stud-washer-d'), fastenerFigure('pad')]
  const tMm = section.thicknessM * 1000
  const of = { tMm, fuMPa: section.tensileMPa }
  const bearing = ecBoltBearing({ ...of, dMm: d.value, endMm: fastenerFigure('edge-of-bolt').value })
  const own = ecBolt({
    areaMm2: fastenerFigure('bolt-as').value,
    fubMPa: fastenerFigure('bolt-fub').value,
    dmMm: washer.value,
    plateMm: tMm,
    fuMPa: section.tensileMPa,
  })
  const shearAllowedN = Math.min(bearing.resistanceN, own.shearN) / factor.value
  const pullAllowedN = Math.min(own.tensionN, own.punchingN) / factor.value
  const lay = weldToLay({ designForceN: factor.value * Math.hypot(shearN, pullN), thinnerMm: sheetMm(inputs, piece), runs: 2 })
  const weld = lay.runMm / pad.value
  const stud = shearN / shearAllowedN + pullN / pullAllowedN
  return {
    ...held,
    use: Math.max(weld, stud),
    what: `an M${d.value} stud on a pad, isolated from the channel`,
    steps: () => [
      ...forces(),
      step(
        'bearing',
        '2.5·αb·kt·fu·d·t/γM2 over 1.5',
        [put('t', tMm, 'mm'), put('fu', section.tensileMPa, 'MPa')],
        bearing.resistanceN / factor.value,
        'N',
        fastenerFigure('ec-bolt-bearing').rests,
      ),
      step('stud, shear', '0.6·fub·As/γM2 over 1.5', [], own.shearN / factor.value, 'N', fastenerFigure('bolt-shear').rests),
      step(
        'stud, tension',
        '0.9·fub·As/γM2 over 1.5',
        [],
        own.tensionN / factor.value,
        'N',
        fastenerFigure('bolt-tension').rests,
      ),
      step(
        'punching',
        '0.6·π·dm·t·fu/γM2 over 1.5',
        [put('dm', washer.value, 'mm')],
        own.punchingN / factor.value,
        'N',
        fastenerFigure('bolt-punching').rests,
      ),
      step('pad', 'each of its two runs over its side', [put('run', lay.runMm, 'mm')], weld, '', pad.rests),
      step(
        'use',
        'the greater of V/least in shear + T/least in tension, and the pad',
        [],
        Math.max(weld, stud),
        '',
        source('linear interaction', 'common practice'),
      ),
    ],
  }
}

function bolted(inputs: HungInputs, held: Start, forces: () => readonly Step[], shearN: number, pullN: number): Held {
  const { side } = held.member.piece
  if (side === 'roof')
    return {
      ...held,
      use: null,
      why: 'no bolt goes through the roof: hang from the top rails or from the walls.',
      what: 'bolt',
      steps: forces,
    }
  const sheetMm = side === 'floor' ? fastenerFigure('crossmember').value : inputs.body.sides[side].corrugation?.thicknessMm
  if (sheetMm === undefined)
    return {
      ...held,
      use: null,
      why: `the sheet of the ${side} is not known: measure its thickness.`,
      what: 'bolt',
      steps: forces,
    }
  const [d, fu, washer, factor] = [
    fastenerFigure('bolt-d'),
    fastenerFigure('sheet-fu'),
    fastenerFigure('washer-d'),
    fastenerFigure('load-factor'),
  ]
  const bearing = sheetBearing({ dMm: d.value, tMm: sheetMm, fuMPa: fu.value })
  const over = sheetPullOver({ washerMm: washer.value, tMm: sheetMm, fuMPa: fu.value })
  const ec = ecBoltBearing({ dMm: d.value, tMm: sheetMm, endMm: fastenerFigure('edge-of-bolt').value, fuMPa: fu.value })
  const own = ecBolt({
    areaMm2: fastenerFigure('bolt-as').value,
    fubMPa: fastenerFigure('bolt-fub').value,
    dmMm: washer.value,
    plateMm: sheetMm,
    fuMPa: fu.value,
  })
  const shearAllowedN = Math.min(bearing.allowedN, ec.resistanceN / factor.value, own.shearN / factor.value)
  const pullAllowedN = Math.min(over.allowedN, own.tensionN / factor.value)
  const use = shearN / shearAllowedN + pullN / pullAllowedN
  const steps = () => [
    step(
      'bearing',
      '2.7·t·d·Fu/3',
      [put('t', sheetMm, 'mm'), put('d', d.value, 'mm'), put('Fu', fu.value, 'MPa')],
      bearing.allowedN,
      'N',
      fastenerFigure('screw-bearing').rests,
    ),
    step(
      'bearing, EN',
      '2.5·αb·kt·fu·d·t/γM2 over 1.5',
      [put('αb', ec.alphaB), put('kt', ec.kt)],
      ec.resistanceN / factor.value,
      'N',
      fastenerFigure('ec-bolt-bearing').rests,
    ),
    step(
      'pull-over',
      '1.5·t·dw·Fu/3, dw at most 19 mm',
      [put('washer', washer.value, 'mm')],
      over.allowedN,
      'N',
      fastenerFigure('screw-pull-over').rests,
    ),
    step('bolt, shear', '0.6·fub·As/γM2 over 1.5', [], own.shearN / factor.value, 'N', fastenerFigure('bolt-shear').rests),
    step('bolt, tension', '0.9·fub·As/γM2 over 1.5', [], own.tensionN / factor.value, 'N', fastenerFigure('bolt-tension').rests),
    step('use', 'V/least in shear + T/least in tension', [], use, '', source('linear interaction', 'common practice')),
  ]
  return {
    ...held,
    use,
    what: `an M${d.value} bolt through ${shown(sheetMm)} mm of sheet with a washer of ${washer.value} mm`,
    steps: () => [...forces(), ...steps()],
  }
}
