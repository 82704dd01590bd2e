import { Fault, judgeUpper, put, source, step, type Verdict, type Working, weakest } from '../../kernel/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { strutFigure } from '../shelf.ts'
import { bracingFactor, patternFactor, slotFaceN } from './derate.ts'
import { judgeFixings } from './fixings.ts'
import { mostLoadN } from './formulas.ts'
import { type Frame, frameOf, type Member, type MemberState } from './frame.ts'
import { judgeNuts, type NutChoice, nutChoices } from './hung-findings.ts'
import type { HungInputs } from './inputs.ts'
import { PA_PER_PSI } from './section.ts'
import { worstAnd } from './worst.ts'

/**
 * Everything that hangs: each piece of channel in bending, deflection and as a post, each nut, each fixing, standing and on the road.
 * The heavy end of every mass counts.
 */
export function judgeStrut(inputs: HungInputs): Judged & { readonly nuts: readonly NutChoice[] } {
  const frame = frameOf(inputs.fit, inputs.rules)
  const nuts = nutChoices(frame)
  const all = together([
    heldFindings(inputs, frame),
    strengthFindings(inputs, frame),
    deflectionFindings(inputs, frame),
    judgeNuts(inputs, nuts),
    judgeFixings(inputs, frame),
  ])
  return { ...all, nuts }
}

/** What floats: a thing that does not sit on the channel it names, a piece held at fewer than two points, a nut on nothing. */
function heldFindings({ box, fit }: HungInputs, frame: Frame): Judged {
  const wrong: { readonly subject: string; readonly said: string; readonly byMm?: number }[] = []
  for (const { item, hung } of frame.items) {
    if (item.hangsOn.length === 0 && item.kind !== 'transformer')
      wrong.push({ subject: item.id, said: `${item.id} names no channel that carries it.` })
    for (const miss of hung.misses)
      wrong.push(
        miss.way === 'there is no such piece'
          ? { subject: item.id, said: `${item.id} hangs on ${miss.piece}, and there is no such piece.` }
          : { subject: item.id, said: `${item.id} misses ${miss.piece} by ${shown(miss.byMm)} mm ${miss.way}.`, byMm: miss.byMm },
      )
  }
  for (const member of frame.members.values()) {
    if (member.supports.length < 2)
      wrong.push({
        subject: member.piece.id,
        said: `${member.piece.id} is held at ${member.supports.length} point(s); a beam wants two.`,
      })
    member.supports.forEach(({ fixing }, k) => {
      if (fixing.how === 'channel nut' && member.restsOn[k] === null)
        wrong.push({ subject: member.piece.id, said: `A nut of ${member.piece.id} sits on no other channel.` })
    })
  }
  if (wrong.length === 0)
    return judged({
      code: 'fit/strut-held',
      subject: `${box} strut`,
      verdict: fit.strut.length === 0 ? 'unknown' : 'holds',
      basis: 'physics',
      said:
        fit.strut.length === 0
          ? 'No channel is designed: nothing says what the things hang on.'
          : `All ${fit.items.length} things sit on the channel they name, and all ${fit.strut.length} pieces are held at two points or more.`,
      provenance: 'computed',
    })
  return together(
    wrong.map((one) =>
      judged({
        code: 'fit/strut-held',
        subject: `${box} ${one.subject}`,
        verdict: 'fails',
        basis: 'physics',
        said: one.said,
        ...(one.byMm === undefined
          ? {}
          : { demand: put('gap', one.byMm, 'mm'), limit: put('most', strutFigure('touch').value, 'mm') }),
        provenance: 'computed',
      }),
    ),
  )
}

interface Use {
  readonly member: Member
  readonly state: MemberState
  /** Share of the strength used; null where a length lies beyond the tables. */
  readonly use: number | null
}

/** Longest length without a brace: a span, or twice a free arm. */
const unbracedM = (member: Member): number => {
  const at = member.supports.map((s) => s.atM)
  const ends = [2 * (at[0] as number), 2 * (member.axes.lengthM - (at[at.length - 1] as number))]
  return Math.max(...ends, ...at.slice(1).map((x, i) => x - (at[i] as number)))
}

function strengthOf(member: Member) {
  const longM = unbracedM(member)
  const pattern = patternFactor(member.piece.pattern)
  const bracing = bracingFactor(member.section, longM)
  return { longM, pattern, bracing, stressPa: member.section.stressPa, post: slotFaceN(member.section, longM) }
}

function useOf(member: Member, state: MemberState, strength: ReturnType<typeof strengthOf>): number | null {
  const { pattern, bracing, stressPa, post } = strength
  if (bracing === null) return null
  const bent = state.look.mostMomentNm / (stressPa * member.section.sxM3 * pattern.value * bracing.value)
  const sideways = state.across.mostMomentNm / (stressPa * member.section.syM3 * pattern.value)
  return bent + sideways + Math.abs(state.alongN) / (post.value * pattern.value)
}

function strengthFindings({ box }: HungInputs, frame: Frame): Judged {
  const worst = [...frame.states].map(([id, states]) => {
    const member = frame.members.get(id) as Member
    const strength = strengthOf(member)
    const uses = states.map((state): Use => ({ member, state, use: useOf(member, state, strength) }))
    return uses.reduce((a, b) => ((b.use ?? Infinity) > (a.use ?? Infinity) ? b : a))
  })
  return worstAnd(
    worst,
    (one) => verdictOf(one.use),
    (one) => one.use ?? Infinity,
    (one, whole) => {
      const working = strengthWorking(box, one)
      const { member, state, use } = one
      const subject = whole ? `${box} strut` : `${box} ${member.piece.id}`
      return judged(
        {
          code: 'fit/strut-strength',
          subject,
          verdict: verdictOf(use),
          basis: 'maker',
          said:
            use === null
              ? `${member.piece.id} runs ${shown(unbracedM(member))} m without a brace: the load tables end before that.`
              : `${whole ? `Worst of ${worst.length} pieces: ` : ''}${member.piece.id} uses ${shown(use * 100)} % of its strength, ${state.case.name}.`,
          ...(use === null ? {} : { demand: put('use', use), limit: put('most', 1) }),
          provenance: weakest(member.section.rests.provenance, 'memory'),
          confirm: true,
          caution: 'Weigh what hangs before it is hung; nobody climbs on the channel.',
        },
        working,
      )
    },
  )
}

const verdictOf = (use: number | null): Verdict => (use === null ? 'unknown' : judgeUpper(use, 1))

function strengthWorking(box: string, { member, state, use }: Use): Working {
  const { longM, pattern, bracing, stressPa, post } = strengthOf(member)
  const { section, piece } = member
  const mechanics = source('beam on its fixings, slope–deflection', 'computed')
  const steps = [
    step('F', 'what hangs on it, in this case', [], state.hungN, 'N', source('nuts of the things and rails on it', 'computed')),
    step(
      'Mx',
      `most moment away from the wall, ${state.case.name}`,
      [put('L', longM, 'm')],
      state.look.mostMomentNm,
      'N·m',
      mechanics,
    ),
    step('My', 'most moment across, slot sideways', [put('L', longM, 'm')], state.across.mostMomentNm, 'N·m', mechanics),
    step('P', 'along the channel', [], Math.abs(state.alongN), 'N', mechanics),
    step('f', `${Math.round(stressPa / PA_PER_PSI)} psi, ${section.metal}`, [], stressPa, 'Pa', section.stress),
    step('kp', `pattern: ${piece.pattern}`, [], pattern.value, '', pattern.rests),
    ...(bracing === null
      ? []
      : [
          step(
            'kb',
            'slot flange free over the length without a brace',
            [put('L', longM, 'm')],
            bracing.value,
            '',
            bracing.rests,
          ),
        ]),
    step('Pa', 'allowed on the slot face', [put('L', longM, 'm')], post.value, 'N', post.rests),
    step(
      'use',
      'Mx/(f·Sx·kp·kb) + My/(f·Sy·kp) + P/(Pa·kp)',
      [put('Sx', section.sxM3, 'm³'), put('Sy', section.syM3, 'm³')],
      use ?? 'not known',
      '',
      section.rests,
    ),
  ]
  const check = mostLoadN({ spanM: longM, stressPa, sectionM3: section.sxM3 }) * pattern.value * (bracing?.value ?? 1)
  return {
    id: `${box} ${piece.id}/strength`,
    title: `Strength of ${piece.id}`,
    steps,
    ...(use === null
      ? {}
      : { judgement: { demand: put('use', use), relation: '≤', limit: put('most', 1), tight: '10 %', rests: section.stress } }),
    crossCheck: [
      step(
        'W',
        '8·f·Sx·kp·kb/L, uniform on the longest length as a simple span: the load table’s own formula',
        [put('hung', state.hungN, 'N')],
        check,
        'N',
        source('channel load catalogue', 'memory'),
      ),
    ],
  }
}

/** @throws Fault `fit/no-deflection` where the case was solved without */
function asked(deflectionM: number | null | undefined): number {
  if (deflectionM === null || deflectionM === undefined) throw new Fault('fit/no-deflection')
  return deflectionM
}

interface Sag {
  readonly member: Member
  readonly sagM: number
  readonly limitM: number
  readonly spanM: number
}

function deflectionFindings({ box }: HungInputs, frame: Frame): Judged {
  const part = strutFigure('deflection-part')
  const worst = [...frame.states].map(([id, states]): Sag => {
    const member = frame.members.get(id) as Member
    const standing = states.find((s) => s.case.standing) as MemberState
    const sags = standing.look.spans.map((span, i) => {
      const spanM = (span.toM - span.fromM) * (span.kind === 'arm' ? 2 : 1)
      const sagM = Math.hypot(asked(span.deflectionM), asked(standing.across.spans[i]?.deflectionM))
      return { member, sagM, limitM: spanM / part.value, spanM }
    })
    return sags.reduce((a, b) => (b.sagM / b.limitM > a.sagM / a.limitM ? b : a))
  })
  return worstAnd(
    worst,
    (one) => judgeUpper(one.sagM, one.limitM),
    (one) => one.sagM / one.limitM,
    (one, whole) => {
      const { member, sagM, limitM, spanM } = one
      const working: Working = {
        id: `${box} ${member.piece.id}/deflection`,
        title: `Deflection of ${member.piece.id}`,
        steps: [
          step(
            'δ',
            'both ways, standing, self-weight and other trades counted',
            [put('Ix', member.section.ixM4, 'm⁴'), put('Iy', member.section.iyM4, 'm⁴')],
            sagM,
            'm',
            source('beam on its fixings, slope–deflection', 'computed'),
          ),
          step('limit', `L/${part.value}, a free arm counted twice`, [put('L', spanM, 'm')], limitM, 'm', part.rests),
        ],
        judgement: {
          demand: put('δ', sagM, 'm'),
          relation: '≤',
          limit: put('limit', limitM, 'm'),
          tight: '10 %',
          rests: part.rests,
        },
      }
      return judged(
        {
          code: 'fit/strut-deflection',
          subject: whole ? `${box} strut` : `${box} ${member.piece.id}`,
          verdict: judgeUpper(sagM, limitM),
          basis: 'house',
          said: `${whole ? `Worst of ${worst.length} pieces: ` : ''}${member.piece.id} gives ${shown(sagM * 1000)} mm over ${shown(spanM)} m; ${shown(limitM * 1000)} mm is the practice.`,
          demand: put('δ', sagM, 'm'),
          limit: put('limit', limitM, 'm'),
          provenance: 'common practice',
        },
        working,
      )
    },
  )
}
