import type { Memory, QuestionId } from '../../kernel/index.ts'

/** What each question is answered from, by the names under which `assess` remembers. */
const READS: Readonly<Partial<Record<QuestionId, readonly string[]>>> = {
  needs: ['needs'],
  supply: ['needs', 'supply'],
  circuits: ['needs', 'circuits'],
  reach: ['reach'],
  faults: ['faults'],
  fit: ['bodies', 'steel', 'fit'],
  skin: ['bodies', 'skin'],
  haul: ['bodies', 'haul'],
  shop: ['bodies', 'fit', 'skin', 'haul', 'shop'],
  dates: ['dates'],
  money: ['needs', 'supply', 'bodies', 'haul', 'shop', 'money'],
}

/**
 * A memory for asking one question again and again: what it is not answered from is given as it was, whatever changed. Only findings of
 * `question` are then true; the memory must have seen one whole assessment.
 */
export function onlyFor(question: QuestionId, memory: Memory): Memory {
  const wanted = READS[question]
  if (wanted === undefined) return memory
  const kept = new Map<string, unknown>()
  return {
    settle: memory.settle,
    recall: (name, reads, answer) => {
      const own = wanted.includes(name.split(' ')[0] ?? name)
      if (!own && kept.has(name)) return kept.get(name) as ReturnType<typeof answer>
      const given = memory.recall(name, reads, answer)
      kept.set(name, given)
      return given
    },
  }
}
