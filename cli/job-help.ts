import { bedFields, keepOutFields, nestingFields } from '../core/job/bed-schema.js';
import { crucibleFields } from '../core/job/crucible-schema.js';
import { gatingFields } from '../core/job/gating-schema.js';
import * as schema from '../core/job/job-schema.js';
import { metalFields } from '../core/job/metal-schema.js';
import { ownAlloyFields } from '../core/job/own-alloy-schema.js';
import * as shopSchema from '../core/job/shop-schema.js';
import type { ParameterSchema } from '../core/part/contract.js';
import { listFields } from '../core/part/help.js';
import type { HelpEntry } from './help-page.js';

const word = (group: string, label: string, help: string, facts = ''): HelpEntry => ({
  group,
  label,
  help,
  facts,
});

const fields = (group: string, fieldSchema: ParameterSchema, prefix = ''): readonly HelpEntry[] =>
  listFields(fieldSchema, 'mm').map((field) => ({
    group,
    label: `${prefix}${field.name}`,
    help: field.help,
    facts: [field.range, field.default === '' ? '' : `default: ${field.default}`]
      .filter((fact) => fact !== '')
      .join('; '),
  }));

const job = 'Keys of a job';
const part = 'Keys of each part';
const tree = 'Keys of a tree among the parts';
const shop = 'Keys of a shop profile';

/** The keys of a plate job, from the schema that reads it. */
export const jobEntries = (): readonly HelpEntry[] => [
  word(job, 'job', 'Name of the job and its folder; must be given'),
  word(job, 'title', 'What the papers call it', 'default: the name'),
  word(job, 'notes', 'List of lines to print on the traveller'),
  word(
    job,
    'shop',
    'Path of a shop profile, from the folder of the job, or the keys of one written here',
    'default: as for --shop',
  ),
  word(job, 'alloy', 'See patternwright list alloys', `default: ${schema.jobDefaults.alloy}`),
  word(job, 'investment', 'See patternwright list investments', `default: ${schema.jobDefaults.investment}`),
  word(
    job,
    'startAt, pourAt',
    'When the kiln starts, or when the flasks are to be ready: 2026-05-09 18:30',
    'default: the programme has no clock',
  ),
  ...fields(job, schema.growthFields),
  ...fields(job, schema.settingsFields),
  ...fields(job, schema.stockFields, 'stock.'),
  ...fields(job, bedFields, 'bed.'),
  word(
    job,
    'bed.keepOut',
    'List of zones that are not printed on, each with x, y and width and depth or a diameter',
    'default: none',
  ),
  ...fields(job, keepOutFields, 'bed.keepOut[].'),
  ...fields(job, nestingFields, 'nesting.'),
  ...fields(job, schema.correctionFields, 'printerCorrection.'),
  word(
    job,
    'flasks',
    'List of your own flasks, each with name, diameter and height',
    'default: see patternwright list flasks',
  ),
  ...fields(job, schema.flaskFields, 'flasks[].'),
  ...fields(job, gatingFields, 'gating.'),
  word(job, 'prices.currency', 'Three capital letters; prices are optional'),
  ...fields(job, schema.priceFields, 'prices.'),
  word(
    job,
    'metals',
    "List of metals on the shelf to make the alloys of, each with a name and alloy or composition, beside the shop's",
    'default: alloys are bought as ingot',
  ),
  ...fields(job, metalFields, 'metals[].'),
  word(job, 'parts', 'List of the parts; must be given'),
  word(part, 'name', 'Name of the pattern and its folder; must be given'),
  word(
    part,
    'part',
    'See patternwright list parts, or the path of a part file from the folder of the job, like ./my-part.mjs, which is code and is run; must be given',
  ),
  word(part, 'parameters', 'Keys as patternwright make <part> --help lists them'),
  word(part, 'piece', 'The one casting to make of a part that consists of several; all if left out'),
  word(part, 'preset', "One of the part's sets of values to start from"),
  word(part, 'alloy, stock, gating', 'As for the job, for this part alone'),
  ...fields(part, schema.partFields),
  word(
    tree,
    'tree',
    'In place of part: the list of the patterns round one sprue, of several kinds, 2 to 8 by their counts; one alloy, so one pour',
  ),
  word(tree, 'name, alloy, stock, gating', 'As of a part'),
  ...fields(tree, schema.treeFields),
  word(tree, 'tree[].part, piece, preset, parameters, stock', 'As of a part'),
  word(tree, 'tree[].name', 'Name of the pattern, under that of the tree', 'default: its part'),
  ...fields(tree, schema.memberFields, 'tree[].'),
  word(shop, 'title', 'What the papers call the shop'),
  word(
    shop,
    shopSchema.sharedGroups.join(', '),
    "As in a job; a job's own come first, each group as a whole",
  ),
  word(shop, 'investment, layerHeight, units', "As in a job; a job's own come first"),
  word(shop, 'metals', "As in a job; a job's metal of the same name comes first"),
  word(shop, 'plastic', 'See patternwright list plastics', `default: ${shopSchema.shopDefaults.plastic}`),
  ...fields(shop, shopSchema.shopFields),
  ...fields(shop, shopSchema.mixingFields, 'mixing.'),
  ...fields(shop, shopSchema.kilnFields, 'kiln.'),
  ...fields(shop, shopSchema.furnaceFields, 'furnace.'),
  word(
    shop,
    'crucibles',
    'List of your crucibles, each with a name and bilge or volume',
    'default: bilge sizes',
  ),
  ...fields(shop, crucibleFields, 'crucibles[].'),
  word(shop, 'alloys', 'List of your own alloys, each with name, basedOn, composition and what differs'),
  ...fields(shop, ownAlloyFields, 'alloys[].'),
];

export const jobExample = `Example:

  job: drawer-pulls
  alloy: yellow-brass
  parts:
    - name: small-pull
      part: hatch-pull
      quantity: 4
      parameters: { size: 28mm }
      stock: { skin: 0.4mm }`;
