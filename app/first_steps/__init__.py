"""First steps: a course of six bricks over the elevation; each is laid when the person has done what it says."""
