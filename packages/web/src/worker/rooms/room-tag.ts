import type { QuestionId } from '@plugstead/engine/kernel'
import type { AtWork } from '../at-work.ts'
import type { Choice, RoomFact, RoomTagAnswer, Teller } from '../protocol.ts'
import { choice, panelChoices } from '../thing-facts.ts'
import { airChoices } from './air-choices.ts'

/** Choices of a question, and what it rests on that nobody told. */
export function roomTag(at: AtWork, question: QuestionId): RoomTagAnswer {
  return { choices: choicesOf(at, question), facts: factsOf(at, question) }
}

function choicesOf(at: AtWork, question: QuestionId): readonly Choice[] {
  const [first] = at.found.design.boxes
  if (first === undefined) return []
  switch (question) {
    case 'needs':
      return [
        {
          ...choice(at, 'staging', at.found.assessment.results.needs.boxes[0]?.control ?? 'none', '', 'staging.control'),
          options: ['none', 'timers', 'interlock'],
        },
      ]
    case 'supply': {
      const offers = at.job.offers.filter((o) => o.available)
      const services = at.job.offers.find((o) => o.id === first.offer)?.serviceA ?? []
      return [
        { ...choice(at, 'offer', first.offer, '', 'supply.offer'), options: offers.map((o) => o.id) },
        {
          ...choice(at, 'service', first.serviceA, 'A', 'service.rating'),
          ...(services.length > 1 ? { options: services } : {}),
        },
      ]
    }
    case 'circuits':
    case 'faults':
      return panelChoices(at, first)
    case 'haul': {
      const haul = at.found.assessment.results.haul.boxes[0]
      if (haul === undefined) return []
      const ways = haul.methods.map((m) => m.method)
      return [{ ...choice(at, 'lift', haul.design.lift, '', `haul.${haul.box}.lift`), options: ways }]
    }
    case 'air':
      return airChoices(at)
    default:
      return []
  }
}

/** Assumed values its findings rest on, and what is missing for it. */
function factsOf(at: AtWork, question: QuestionId): readonly RoomFact[] {
  const { findings, assumed } = at.found.assessment
  const paths = new Set(findings.filter((f) => f.question === question).flatMap((f) => f.assumed))
  return [
    ...(at.job.missing ?? [])
      .filter((m) => m.questions.includes(question))
      .map((m): RoomFact => ({ path: m.path, said: m.said, source: '', firm: 'unknown', teller: tellerOf(m.path) })),
    ...assumed
      .filter((a) => paths.has(a.path))
      .map((a): RoomFact => ({ path: a.path, said: a.said, source: a.source, firm: 'assumed', teller: tellerOf(a.path) })),
  ]
}

/** Who can tell what stands at a path of the document. */
function tellerOf(path: string): Teller {
  if (path.startsWith('facts.supply')) return 'utility'
  if (path.startsWith('facts.surveys') || path.startsWith('facts.site.ground') || path.startsWith('facts.site.soil'))
    return 'surveyor'
  if (path.startsWith('facts.site.climate') || path.startsWith('facts.site.snow') || path.startsWith('facts.site.wind'))
    return 'weather'
  if (path.startsWith('boxes') || path.startsWith('facts.prices') || path.startsWith('facts.built')) return 'shop'
  if (/line-neutral-share|motor|element|power-factor|leaks/.test(path)) return 'maker'
  return 'customer'
}
