export { lightFigure } from './light/figures.ts'
export { leastStrips, type Paint, utilisationIn } from './light/lamps.ts'
export { directLx, lampsFor, roomIndex, utilisation } from './light/lumen.ts'
export { type MaterialLine, type MaterialMoney, type MissingPrice, materialMoney, pricedMaterials } from './material-money.ts'
export { cordId, deviceId, type Material, materialsOf, outletCount, shockId, stubCount } from './materials.ts'
export { type OwnKind, type OwnLoad, ownLoads } from './own-loads.ts'
export { fanPriced, heatersPriced } from './own-priced.ts'
export type { Price, Prices } from './prices.ts'
export { readPrices } from './read-prices.ts'
export { partById, type ShelfPart, type WirewaySize, wirewayPart, wirewaySizes } from './shelf.ts'
export { contactorBoxes, receptaclePart, type ShelfItem, shelfItems, wholeBuild } from './shelf-items.ts'
export { sizeUp } from './size-up.ts'
export {
  type Booking,
  type Hire,
  hireSchema,
  MODULE_KINDS,
  type Model,
  type Module,
  type ModuleKind,
  modelMassKg,
  modelSchema,
  moduleSchema,
  modulesMoney,
  NO_HIRE,
  NO_STOCK,
  readHire,
  readModel,
  readModule,
  readStock,
  readYardBox,
  type Stock,
  type StockPaths,
  withModule,
  type YardBox,
  yardSchema,
} from './stock/index.ts'
export { TUBES, type Tube } from './tubes.ts'
