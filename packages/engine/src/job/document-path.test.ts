import { expect, test } from 'vitest'
import { documentPath } from './document-path.ts'

const job = { boxes: [{ id: 'tower' }, { id: 'yard' }], offers: [{ id: 'pole' }] } as unknown as Parameters<
  typeof documentPath
>[0]

test('a box and an offer by name are found where the document has them', () => {
  expect(documentPath(job, 'boxes.yard.inside-cold')).toBe('boxes[1].inside-cold')
  expect(documentPath(job, 'facts.supply.pole.transformer.xOverR')).toBe('facts.supply.offers[0].transformer.x-over-r')
})

test('what names nothing of the job stays as it is', () => {
  expect(documentPath(job, 'boxes.shed.inside-cold')).toBe('boxes.shed.inside-cold')
  expect(documentPath(job, 'needs.growth')).toBe('needs.growth')
})
