import type { QuestionId } from '@plugstead/engine/kernel'

/** The sixteen questions in a person's words. */
export const QUESTION_WORDS: Readonly<Record<QuestionId, string>> = {
  needs: 'What has to run, and when?',
  place: 'Where does the box stand, and is that wise?',
  supply: 'What can feed it?',
  papers: 'What is this box in the eyes of the rules, and who must agree?',
  dates: 'By when, and what must start today?',
  circuits: 'Who plugs in where?',
  reach: 'Does it still work at the end of the cord?',
  faults: 'What happens when something goes wrong?',
  fit: 'Does it fit, and what does it hang on?',
  skin: 'What do we cut in the box?',
  air: 'Will it stay dry, and cool enough?',
  haul: 'What do lifting, hauling and setting down ask for?',
  shop: 'What do we buy, cut and do?',
  money: 'What does it cost, sell for, rent for?',
  energise: 'What must be proved before it is switched on?',
  keep: 'Is it still good, and where next?',
}
