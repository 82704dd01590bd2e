export {
  allNormals,
  DESIGN_NAMES,
  type DesignFigure,
  type DesignName,
  type Months,
  type Normal,
  type NormalNear,
  normalNamed,
  normalsByDistance,
  normalsNear,
  overGroundM,
  type Spot,
} from './normals.ts'
export {
  type ColumnOrigin,
  WEATHER_MEANS,
  WEATHER_READINGS,
  type WeatherColumn,
  type WeatherHours,
  type WeatherPlace,
} from './types.ts'
