import { z } from 'zod';
import { leavableSections, papers, recordUnitsSchema } from './record-data.ts';
import { text } from './shared-shapes.ts';

/** How a shop's records look (`--shop`): kept once, used for each record. What a unit record says of the shop goes before it. */
export const shopSchema = z.strictObject({
  format: z.literal('overdrive-bench/shop'),
  version: z.literal(1),
  name: z.string().optional(),
  address: z.string().optional(),
  contact: z.string().optional(),
  /** An SVG, PNG or JPEG file; on the command line a name beside this file. */
  logo: text.optional(),
  paper: z.enum(papers).optional(),
  /** Language of the record, with its dates and its decimal mark: "en", "de". */
  language: text.optional(),
  leaveOut: z.array(z.enum(leavableSections)).optional(),
  /** Units that the records show; left out: those of the limits and the log. */
  units: recordUnitsSchema.optional(),
});
export type Shop = z.infer<typeof shopSchema>;
