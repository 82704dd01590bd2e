import { type BookInput, circuitsSheets, onceForPhases, oneLineSheets, questionSheets, type Sheet } from '@plugstead/book/sheets'
import { QUESTION_WORDS, type QuestionId } from '@plugstead/engine/kernel'

/**
 * Sheets of a room: those of the book, the picture first and under it the table of its facts, which the book may have on the next sheet.
 * Volts are drawn where they are asked for.
 */
export function roomSheets(question: QuestionId, input: BookInput): readonly Sheet[] | null {
  const all = questionSheets(input)
  if (!(question in all)) return null
  const own = question === 'circuits' ? circuitsSheets(input) : all[question as keyof typeof all]()
  const phases = [...new Set(input.design.boxes.map((b) => b.phase))]
  return named(question, onceForPhases(ordered(question, own, input), phases))
}

function ordered(question: QuestionId, own: readonly Sheet[], input: BookInput): readonly Sheet[] {
  switch (question) {
    case 'needs':
      return pictureFirst(own)
    case 'reach':
      return oneLineSheets(input).map((drawn) =>
        under(
          drawn,
          own.find((sheet) => sheet.sub.startsWith(drawn.sub)),
        ),
      )
    case 'faults': {
      const charts = own.find((sheet) => sheet.head === 'Time against current')
      const levels = own.find((sheet) => sheet !== charts)
      return charts === undefined ? own : [under(charts, levels), ...own.filter((sheet) => sheet !== charts && sheet !== levels)]
    }
    case 'dates':
      return own[0] === undefined ? own : [under(drawnFirst(own[0]), own[1]), ...own.slice(2)]
    case 'fit':
      return own[0] === undefined ? own : [under(own[0], own[1]), ...own.slice(2)]
    case 'haul':
    case 'shop':
      return pictureFirst(own)
    default:
      return own
  }
}

function pictureFirst(own: readonly Sheet[]): readonly Sheet[] {
  const at = own.findIndex((sheet) => sheet.blocks.some((b) => b.k === 'drawing'))
  return at <= 0 ? own : [own[at]!, ...own.slice(0, at), ...own.slice(at + 1)]
}

/** What is drawn before what is said. */
const drawnFirst = (sheet: Sheet): Sheet => ({
  ...sheet,
  blocks: [...sheet.blocks.filter((b) => b.k === 'drawing'), ...sheet.blocks.filter((b) => b.k !== 'drawing')],
})

/** A picture, and another sheet's facts under it. */
const under = (picture: Sheet, facts: Sheet | undefined): Sheet =>
  facts === undefined
    ? picture
    : { ...picture, blocks: [...picture.blocks, { k: 'head', text: facts.head, note: facts.sub }, ...facts.blocks] }

/** In the book the first sheet of a question bears the question; in its room the question stands above already. */
const FIRST: Readonly<Partial<Record<QuestionId, string>>> = {
  fit: 'All six sides',
  skin: 'Openings',
  haul: 'Mass, and ways to lift',
  shop: 'Bill',
  money: 'Price and cost',
}
const named = (question: QuestionId, sheets: readonly Sheet[]): readonly Sheet[] =>
  sheets.map((sheet) => (sheet.head === QUESTION_WORDS[question] ? { ...sheet, head: FIRST[question] ?? sheet.head } : sheet))
