global using ParticleLims.TestLaboratory;
global using ParticleLims.TestLaboratory.Databases;
global using ParticleLims.TestLaboratory.SmallLaboratories;
global using Shouldly;
global using Xunit;
