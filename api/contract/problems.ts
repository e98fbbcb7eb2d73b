import { z } from 'zod'

/** RFC 9457 problem details, `application/problem+json`. `type` is a relative reference into our own documentation. */
export const problemSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  instance: z.string().optional(),
  issues: z
    .array(
      z.object({
        code: z.string(),
        message: z.string(),
        file: z.string().optional(),
        line: z.number().optional(),
        column: z.union([z.string(), z.number()]).optional(),
        value: z.string().optional(),
        expected: z.string().optional(),
      }),
    )
    .optional(),
})
export type Problem = z.infer<typeof problemSchema>
