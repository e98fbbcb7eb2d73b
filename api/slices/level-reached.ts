import type { TriggerLevel } from '#domain/site/tables.ts'

/** `judge`'s own meaning of reached, with a reference of 0, as a condition on a column. */
export const levelReachedSql = ({ direction, value }: TriggerLevel, of: string): string =>
  direction === 'above'
    ? `${of} >= '${value}'::double`
    : direction === 'below'
      ? `${of} <= '${value}'::double`
      : `abs(${of}) >= abs('${value}'::double)`
