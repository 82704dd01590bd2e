export {
  type ColumnOrigin,
  WEATHER_MEANS,
  WEATHER_READINGS,
  type WeatherColumn,
  type WeatherHours,
  type WeatherPlace,
} from './types.ts'
