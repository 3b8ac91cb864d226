// usage: validate.js SCHEMA FILE
const fs = require("fs");
const Ajv = require("ajv/dist/2020");
const [schema, file] = process.argv.slice(2).map((path) => JSON.parse(fs.readFileSync(path, "utf8")));
const ajv = new Ajv({ allErrors: true, strict: false });
require("ajv-formats")(ajv);
const validate = ajv.compile(schema);
if (!validate(file)) {
  console.error(process.argv[3], validate.errors);
  process.exit(1);
}
