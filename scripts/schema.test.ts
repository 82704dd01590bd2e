import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { docsPath, schemaPath, schemaText, sheetTexts, withFieldTable } from './schema.ts'

test('the committed JSON Schema is the one the reader uses', () => {
  expect(readFileSync(schemaPath, 'utf8')).toBe(schemaText())
})

test('the table of fields in the documentation is the one of the schema', () => {
  const page = readFileSync(docsPath, 'utf8')
  expect(withFieldTable(page)).toBe(page)
})

test.each(sheetTexts())('%s is the one the reader uses', (path, text) => {
  expect(readFileSync(path, 'utf8')).toBe(text)
})
