export { moneyWorkbook } from './money-workbook.ts'
export { type PriceList, readPriceList } from './price-list.ts'
export { priceTable } from './price-table.ts'
export { type Cell, LIKE_FORMULA, type WorkbookSheet, workbook } from './workbook.ts'
