// Has the library of CycloneDX compare documents with the schema of its version 1.6, strictly: validate.mjs FILE…
import { readFileSync } from "node:fs";
import { Spec, Validation } from "@cyclonedx/cyclonedx-library";

const validator = new Validation.JsonStrictValidator(Spec.Version.v1dot6);
for (const file of process.argv.slice(2)) {
  const problem = await validator.validate(readFileSync(file, "utf8"));
  if (problem !== null) {
    console.error(`${file}: ${JSON.stringify(problem)}`);
    process.exitCode = 1;
  } else console.log(`${file} is valid`);
}
