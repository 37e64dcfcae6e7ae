//! Where a train goes: in place of the selected mesh, worm or chain, or of several one after the other; and the change that
//! puts it there.

use std::collections::BTreeSet;

use layshaft_choose::gears::{Bin, GearTrain};
use layshaft_kinematics::Ratio;
use layshaft_layout::{
    Command, Crank, Element, ElementKind, Hand, Id, Layout, Mesh, MeshForm, MeshLoss, Sense,
};
use num_traits::{One, Zero};

use crate::geometry::Point;
use crate::parts;
use crate::placement::{SHAFT_PITCH, free_spot, on_grid};
use crate::target::Target;

/// A pair of gears, or several one after the other, that a train can take the place of.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The shaft that drives.
    pub from: Id,
    /// The shaft that is driven.
    pub to: Id,
    /// The pairs between, in order.
    pub meshes: Vec<Id>,
    /// Whether its shafts turn the same way now.
    pub same_sense: bool,
}

/// A pair with fixed tooth counts on two shafts.
struct Link<'a> {
    a: &'a Id,
    b: &'a Id,
    same_sense: bool,
    /// Tooth counts; threads on a worm.
    teeth: [u32; 2],
    /// The mesh whose loss and module a new one takes over.
    mesh: Option<&'a Mesh>,
}

/// What a train is made of.
#[derive(Clone, Debug)]
struct Step {
    from: Id,
    to: Id,
    teeth: [u32; 2],
}

impl Place {
    /// Where a train can go, by what is selected: meshes that follow one another, or two shafts with such meshes between.
    #[must_use]
    pub fn find(layout: &Layout, selection: &[Target]) -> Option<Self> {
        let meshes: Vec<&Id> = selection
            .iter()
            .filter_map(|target| match target {
                Target::Element(id) => Some(id),
                _ => None,
            })
            .collect();
        let shafts: Vec<&Id> = selection
            .iter()
            .filter_map(|target| match target {
                Target::Shaft(id) => Some(id),
                _ => None,
            })
            .collect();
        match (&meshes[..], &shafts[..]) {
            ([], [from, to]) => Self::between(layout, from, to),
            ([first, ..], []) => Self::along(layout, first, &meshes),
            _ => None,
        }
    }

    /// The chain that these meshes make.
    fn along(layout: &Layout, first: &Id, meshes: &[&Id]) -> Option<Self> {
        let ends: Vec<(&Id, &Id)> = meshes
            .iter()
            .map(|id| link(layout, id).map(|pair| (pair.a, pair.b)))
            .collect::<Option<_>>()?;
        // Ends of the chain are on one of its meshes only.
        let times = |shaft: &Id| ends.iter().filter(|(a, b)| *a == shaft || *b == shaft).count();
        let mut outer = ends
            .iter()
            .flat_map(|(a, b)| [*a, *b])
            .filter(|shaft| times(shaft) == 1);
        let (one, other) = (outer.next()?, outer.next()?);
        if outer.next().is_some() {
            return None;
        }
        if let [only] = meshes {
            let pair = link(layout, first)?;
            return Self::of(layout, pair.a, pair.b, vec![(*only).clone()]);
        }
        Self::between(layout, one, other)
            .filter(|place| place.meshes.iter().collect::<BTreeSet<_>>() == meshes.iter().copied().collect())
    }

    fn of(layout: &Layout, from: &Id, to: &Id, meshes: Vec<Id>) -> Option<Self> {
        if parts::is_frame(from) || parts::is_frame(to) || from == to {
            return None;
        }
        let pairs = meshes.iter().filter_map(|id| link(layout, id));
        Some(Self {
            from: from.clone(),
            to: to.clone(),
            same_sense: pairs.filter(|pair| !pair.same_sense).count().is_multiple_of(2),
            meshes,
        })
    }

    /// The meshes from one shaft to another, where every shaft between carries nothing else.
    fn between(layout: &Layout, from: &Id, to: &Id) -> Option<Self> {
        let starts = parts::elements_on(layout, from).filter(|element| link(layout, &element.id).is_some());
        let ways = starts.filter_map(|start| follow(layout, from, to, &start.id));
        Self::of(layout, from, to, ways.min_by_key(Vec::len)?)
    }

    /// The shafts that go with the meshes.
    fn shafts_between(&self, layout: &Layout) -> Vec<Id> {
        let mut shafts = BTreeSet::new();
        for mesh in self.meshes.iter().filter_map(|id| link(layout, id)) {
            shafts.extend([(*mesh.a).clone(), (*mesh.b).clone()]);
        }
        shafts
            .into_iter()
            .filter(|shaft| *shaft != self.from && *shaft != self.to)
            .collect()
    }

    /// Turns of its last shaft per turn of its first, without the sense.
    #[must_use]
    pub fn ratio(&self, layout: &Layout) -> Option<Ratio> {
        let mut at = &self.from;
        let mut ratio = Ratio::one();
        for id in &self.meshes {
            let pair = link(layout, id)?;
            let forward = *pair.a == *at;
            at = if forward { pair.b } else { pair.a };
            let [a, b] = pair.teeth.map(|teeth| Ratio::from_integer(teeth.into()));
            if a.is_zero() || b.is_zero() {
                return None;
            }
            ratio *= if forward { a / b } else { b / a };
        }
        Some(ratio)
    }

    /// What its meshes lose: the first one's.
    #[must_use]
    pub fn loss(&self, layout: &Layout) -> MeshLoss {
        let first = self.meshes.first().and_then(|id| link(layout, id)?.mesh);
        first.map_or(MeshLoss::NotGiven, |mesh| mesh.loss)
    }

    /// The change that puts a train there, with the meshes that it makes; they lose what the first mesh there does, or
    /// `loss` where that is none.
    #[must_use]
    pub fn replace(&self, layout: &Layout, train: &GearTrain, loss: MeshLoss) -> Option<(Command, Vec<Id>)> {
        let first = self.meshes.first()?;
        let template = link(layout, first)?.mesh.cloned().unwrap_or_else(|| Mesh {
            loss,
            ..plain_mesh(self.from.clone(), self.to.clone())
        });
        let index = layout.elements.iter().position(|element| element.id == *first)?;
        let mut ids = layout.id_maker();
        let count = train.gears as usize - train.stages.len() - 1;
        let between: Vec<Id> = (0..count).map(|_| ids.shaft()).collect();
        let spots = spots(layout, [&self.from, &self.to], count)?;
        let mut commands: Vec<Command> = between
            .iter()
            .zip(spots)
            .map(|(id, at)| Command::AddShaft {
                index: usize::MAX,
                shaft: parts::new_shaft(id, at),
            })
            .collect();
        let mut made = Vec::new();
        for (at, step) in steps(train, &self.from, &between, &self.to)
            .into_iter()
            .enumerate()
        {
            let kind = ElementKind::Mesh(Mesh {
                a: step.from,
                b: step.to,
                teeth: step.teeth,
                ..template.clone()
            });
            let id = if at == 0 { first.clone() } else { ids.element("g") };
            let element = Element {
                id: id.clone(),
                at: None,
                kind,
            };
            commands.push(if at == 0 {
                Command::ReplaceElement { element }
            } else {
                Command::AddElement {
                    index: index + at,
                    element,
                }
            });
            made.push(id);
        }
        let gone = self.meshes[1..]
            .iter()
            .map(|id| Command::RemoveElement { id: id.clone() });
        commands.extend(gone);
        let shafts = self.shafts_between(layout).into_iter();
        commands.extend(shafts.map(|id| Command::RemoveShaft { id }));
        Some((Command::Batch(commands), made))
    }
}

fn link<'a>(layout: &'a Layout, id: &Id) -> Option<Link<'a>> {
    Some(match &parts::element(layout, id)?.kind {
        ElementKind::Mesh(mesh) => Link {
            a: &mesh.a,
            b: &mesh.b,
            same_sense: match mesh.form {
                MeshForm::External => false,
                MeshForm::Internal => true,
                MeshForm::Bevel => mesh.sense == Sense::Same,
            },
            teeth: mesh.teeth,
            mesh: (mesh.form == MeshForm::External).then_some(mesh),
        },
        ElementKind::Worm(worm) => Link {
            a: &worm.worm,
            b: &worm.wheel,
            same_sense: worm.hand == Hand::Right,
            teeth: [worm.starts, worm.teeth],
            mesh: None,
        },
        ElementKind::Chain(chain) => Link {
            a: &chain.a,
            b: &chain.b,
            same_sense: true,
            teeth: chain.teeth,
            mesh: None,
        },
        _ => return None,
    })
}

/// Goes from mesh to mesh until the shaft is reached; none where the way forks or carries something else.
fn follow(layout: &Layout, from: &Id, to: &Id, start: &Id) -> Option<Vec<Id>> {
    let (mut at, mut mesh) = (from.clone(), start.clone());
    let mut meshes = Vec::new();
    while meshes.len() < layout.elements.len() {
        let ends = link(layout, &mesh)?;
        at = if *ends.a == at {
            ends.b.clone()
        } else {
            ends.a.clone()
        };
        meshes.push(mesh.clone());
        if at == *to {
            return Some(meshes);
        }
        let mut others = parts::elements_on(layout, &at).filter(|element| element.id != mesh);
        let next = others.next()?.id.clone();
        if others.next().is_some() || parts::is_frame(&at) || layout.drive.as_ref() == Some(&at) {
            return None;
        }
        mesh = next;
    }
    None
}

/// The meshes of a train from shaft to shaft; an idler has a shaft of its own.
fn steps(train: &GearTrain, from: &Id, between: &[Id], to: &Id) -> Vec<Step> {
    let mut teeth = Vec::new();
    for (at, [driver, driven]) in train.stages.iter().enumerate() {
        match train.idler {
            Some(idler) if idler.stage as usize == at => {
                teeth.extend([[*driver, idler.teeth], [idler.teeth, *driven]]);
            }
            _ => teeth.push([*driver, *driven]),
        }
    }
    let mut shafts = vec![from.clone()];
    shafts.extend(between.iter().cloned());
    shafts.push(to.clone());
    let ends = shafts.windows(2).map(|two| (two[0].clone(), two[1].clone()));
    teeth
        .into_iter()
        .zip(ends)
        .map(|(teeth, (from, to))| Step { from, to, teeth })
        .collect()
}

/// Places for shafts between two others: on the line where there is room, else beside it.
fn spots(layout: &Layout, [from, to]: [&Id; 2], count: usize) -> Option<Vec<Point>> {
    let [from, to] = [from, to].map(|id| parts::shaft(layout, id).map(|shaft| Point::from(shaft.at)));
    let (from, to) = (from?, to?);
    let mut taken = Vec::new();
    for at in 0..count {
        let share = (at + 1) as f64 / (count + 1) as f64;
        let wanted = on_grid(from + (to - from) * share);
        let others = layout.shafts.iter().map(|shaft| Point::from(shaft.at));
        let is_free = others
            .chain(taken.iter().copied())
            .all(|other| other.distance(wanted) >= SHAFT_PITCH * 0.55);
        let spot = if is_free {
            wanted
        } else {
            free_spot(layout, wanted - Point::new(SHAFT_PITCH, 0.0), &taken)
        };
        taken.push(spot);
    }
    Some(taken)
}

/// A layout of a train alone, turned by a crank.
#[must_use]
pub fn alone(train: &GearTrain, title: String, loss: MeshLoss, bin: &Bin) -> Layout {
    let count = train.gears as usize - train.stages.len() + 1;
    let mut shafts: Vec<Id> = (1..=count).map(|at| Id::from(&format!("s{at}"))).collect();
    if let [first, .., last] = &mut shafts[..] {
        (*first, *last) = (Id::from("in"), Id::from("out"));
    }
    let mut layout = Layout {
        title,
        ..Layout::new()
    };
    let at = |n: usize| Point::new(n as f64 * SHAFT_PITCH, 0.0);
    layout.shafts = shafts
        .iter()
        .enumerate()
        .map(|(n, id)| parts::new_shaft(id, at(n)))
        .collect();
    let (Some(first), Some(last)) = (shafts.first(), shafts.last()) else {
        return layout;
    };
    let between = &shafts[1..count - 1];
    let meshes = steps(train, first, between, last)
        .into_iter()
        .enumerate()
        .map(|(n, step)| Element {
            id: Id::from(&format!("g{}", n + 1)),
            at: None,
            kind: ElementKind::Mesh(Mesh {
                teeth: step.teeth,
                loss,
                ..plain_mesh(step.from, step.to)
            }),
        });
    layout.elements = meshes.collect();
    layout.elements.push(Element {
        id: Id::from("crank"),
        at: None,
        kind: ElementKind::Crank(Crank {
            shaft: first.clone(),
            speed_rpm: 60.0,
            limit_nm: None,
        }),
    });
    layout.carried.insert("bin".to_owned(), bin.write());
    layout
}

fn plain_mesh(a: Id, b: Id) -> Mesh {
    Mesh {
        a,
        b,
        teeth: [1, 1],
        form: MeshForm::External,
        sense: Sense::Opposite,
        loss: MeshLoss::NotGiven,
        module_mm: None,
        pressure_angle_deg: 20.0,
        material: None,
        width_mm: None,
        skip_nm: None,
    }
}
