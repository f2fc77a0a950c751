# Placeholder until the preset is set up below.
